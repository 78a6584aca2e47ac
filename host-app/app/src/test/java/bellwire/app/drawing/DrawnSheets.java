package bellwire.app.drawing;

import bellwire.analysis.calls.Level;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.drawing.StripsModel.Clamp;
import bellwire.app.drawing.StripsModel.Jumper;
import bellwire.app.drawing.StripsModel.Mark;
import bellwire.app.drawing.StripsModel.Side;
import bellwire.app.drawing.StripsModel.Strand;
import bellwire.app.drawing.TimingModel.Bracket;
import bellwire.app.drawing.TimingModel.Lane;
import bellwire.app.drawing.TimingModel.StepMark;
import bellwire.app.drawing.TimingModel.Stretch;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Conductor;
import bellwire.app.sheet.SurveySheet.Finding;
import bellwire.app.sheet.SurveySheet.Pair;
import bellwire.app.sheet.SurveySheet.Place;
import bellwire.app.sheet.SurveySheet.Standing;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;

/** Surveys, landings and rehearsals drawn at random: anything that their types allow. */
final class DrawnSheets {
  private static final List<String> NAMES =
      List.of(
          "red",
          "white/blue",
          "light blue",
          "black",
          "no colour at all that anybody has ever seen on a wire",
          "white with green stripe, spliced twice behind the furnace 60",
          "\u05d0\u05d3\u05d5\u05dd (red)",
          "\u0623\u0632\u0631\u0642 \u0641\u0627\u062a\u062d",
          "\u9ed1\u8272\u7535\u7ebf",
          "\u767d\u3044\u96fb\u7dda blue",
          "bl\u00e5/gr\u00f8n",
          "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW",
          "");
  private static final List<String> KINDS =
      List.of(
          "touching",
          "touching-on-the-way",
          "open",
          "untied",
          "broken-beside",
          "joint",
          "contact",
          "leakage",
          "damp",
          "attached-coil",
          "unidentified",
          "a-kind-of-a-later-program");

  private final SplittableRandom random;

  DrawnSheets(long seed) {
    random = new SplittableRandom(seed);
  }

  private <T> T one(List<T> of) {
    return of.get(random.nextInt(of.size()));
  }

  private Standing standing() {
    return one(List.of(Standing.SOUND, Standing.FAULTY, Standing.UNDECIDED));
  }

  private double ohms() {
    return Math.pow(10, random.nextDouble(-3, 11));
  }

  private Place place(Quantity length) {
    double u = random.nextInt(4) == 0 ? random.nextDouble(0.1, 0.4) : random.nextDouble(0.02);
    double f = random.nextInt(5) == 0 ? random.nextInt(2) : random.nextDouble();
    return new Place(
        new Quantity(f, u, "of the run"),
        length == null ? null : new Quantity(f * length.value(), u * length.value(), "m"));
  }

  SurveySheet survey(int conductors) {
    boolean metal = random.nextBoolean();
    Quantity length =
        random.nextBoolean()
            ? new Quantity(random.nextDouble(2, 200), random.nextDouble(), "m")
            : null;
    List<Conductor> list = new ArrayList<>();
    List<String> ports = new ArrayList<>();
    for (int i = 1; i <= conductors; i++) {
      String name = one(NAMES);
      boolean broken = random.nextInt(5) == 0;
      ports.add("P" + i);
      list.add(
          new Conductor(
              "P" + i,
              name.isEmpty() ? null : name,
              random.nextInt(4) == 0 ? 0 : i,
              random.nextInt(4) == 0 ? List.of(i, i + 1) : List.of(),
              1,
              broken || random.nextInt(6) == 0
                  ? null
                  : Quantity.ohms(random.nextDouble(0.1, 2), random.nextDouble(0.05)),
              broken && random.nextBoolean() ? place(length) : null,
              standing(),
              one(List.of("", "4 of 5 contacts agree", "resistance stands out"))));
    }
    if (metal) {
      ports.add("M");
    }
    List<Pair> pairs = new ArrayList<>();
    for (int a = 0; a < ports.size(); a++) {
      for (int b = a + 1; b < ports.size(); b++) {
        boolean found = random.nextInt(4) == 0;
        double ohms = ohms();
        pairs.add(
            new Pair(
                ports.get(a),
                ports.get(b),
                found ? Quantity.ohms(ohms, ohms * random.nextDouble(0.1)) : null,
                found ? Double.NaN : ohms(),
                random.nextInt(6) == 0 ? standing() : Standing.SOUND,
                one(List.of("", "touching", "leakage of 300 kohm"))));
      }
    }
    return sheet(metal, length, list, pairs, findings(ports, length));
  }

  private List<Finding> findings(List<String> ports, Quantity length) {
    List<Finding> findings = new ArrayList<>();
    for (int n = random.nextInt(2 * ports.size()); n > 0; n--) {
      Set<String> at = new HashSet<>();
      for (int k = random.nextInt(4); k >= 0; k--) {
        at.add(one(ports));
      }
      findings.add(
          new Finding(
              one(KINDS),
              List.copyOf(at),
              "what kind of thing it is",
              one(List.of("P1 and P2: 67.5 mohm, touching, of " + one(NAMES), "seen once")),
              "Look at the clamps.",
              random.nextBoolean() ? place(length) : null));
    }
    return findings;
  }

  private static SurveySheet sheet(
      boolean metal,
      Quantity length,
      List<Conductor> conductors,
      List<Pair> pairs,
      List<Finding> findings) {
    return new SurveySheet(
        List.of(),
        "A",
        "1",
        false,
        null,
        List.of(),
        List.of("open", "coded", "tie"),
        metal,
        length,
        null,
        false,
        conductors,
        pairs,
        findings,
        List.of(),
        List.of(),
        null);
  }

  Map<Integer, String> farColours(int conductors) {
    Map<Integer, String> colours = new HashMap<>();
    for (int port = 0; port < conductors; port++) {
      if (random.nextInt(3) == 0) {
        colours.put(port, one(NAMES));
      }
    }
    return colours;
  }

  StripsModel strips(int conductors) {
    List<Clamp> near = clamps(2 + random.nextInt(14));
    List<Clamp> far = clamps(2 + random.nextInt(10));
    List<Strand> strands = new ArrayList<>();
    Set<String> lit = new HashSet<>();
    for (int i = 1; i <= conductors; i++) {
      String name = (one(NAMES) + " " + i).strip();
      strands.add(
          new Strand(
              name,
              one(NAMES),
              random.nextBoolean() ? null : one(NAMES),
              random.nextInt(4) == 0 ? null : one(near).letter(),
              random.nextInt(4) == 0 ? null : one(far).letter(),
              random.nextInt(6) == 0,
              ""));
      if (random.nextInt(3) == 0) {
        lit.add(StripsModel.strandKey(name));
      }
    }
    List<Mark> marks = new ArrayList<>();
    for (int n = random.nextInt(5); n > 0; n--) {
      String key =
          random.nextBoolean()
              ? StripsModel.clampKey(Side.FAR, one(far).letter())
              : StripsModel.strandKey(one(strands).name());
      marks.add(new Mark(key, standing(), "what was found about " + one(NAMES)));
    }
    List<Jumper> jumpers = new ArrayList<>();
    if (random.nextBoolean()) {
      jumpers.add(new Jumper(Side.FAR, far.get(0).letter(), far.get(1).letter()));
      jumpers.add(new Jumper(Side.NEAR, near.get(1).letter(), near.get(0).letter()));
      lit.add(StripsModel.jumperKey(jumpers.get(0)));
    }
    return new StripsModel(one(NAMES), "control", near, far, strands, jumpers, lit, marks);
  }

  private List<Clamp> clamps(int count) {
    List<Clamp> clamps = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      String letter = one(List.of("R", "W", "Y", "HUMIDIFIER-OUT")) + i;
      clamps.add(new Clamp(letter, one(List.of("", "heat", "second stage of the heat pump"))));
    }
    return clamps;
  }

  TimingModel timing(int lanes) {
    long end = (long) Math.pow(10, random.nextDouble(6.1, 11));
    List<Lane> list = new ArrayList<>();
    for (int i = 0; i < lanes; i++) {
      List<Stretch> stretches = new ArrayList<>();
      long at = 0;
      for (int n = random.nextInt(60); n > 0; n--) {
        at += (long) (end * Math.pow(10, random.nextDouble(-6, -1)));
        stretches.add(new Stretch(one(List.of(Level.values())), at));
      }
      list.add(new Lane(one(NAMES) + i, one(List.of("", "heat", one(NAMES))), stretches));
    }
    List<StepMark> steps = new ArrayList<>();
    long at = 0;
    for (int n = random.nextInt(20); n > 0; n--) {
      long next = at + random.nextLong(end / 8);
      steps.add(new StepMark(one(NAMES) + n, at, next, random.nextInt(5) > 0));
      at = next;
    }
    List<Bracket> brackets = new ArrayList<>();
    for (int n = random.nextInt(12); n > 0; n--) {
      long from = random.nextLong(end);
      long to = from + random.nextLong(end);
      brackets.add(
          new Bracket(
              "rule:r" + n,
              random.nextInt(-1, lanes),
              from,
              to,
              random.nextBoolean() ? -1 : from + random.nextLong(end),
              "at least 5 min",
              "287.42 s",
              standing(),
              "The compressor rests, says " + one(NAMES) + "."));
    }
    long from = random.nextBoolean() ? 0 : random.nextLong(end / 2);
    return new TimingModel(from, end, 0, list, steps, brackets);
  }
}
