package bellwire.app.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.landing.LandingCheck;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Point.Side;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.yaml.FileException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is edited is what the text says, and what is read from it again. */
class LandingDraftTest {
  private static final long SEED = Long.getLong("bellwire.seed", 20_261_126L);
  private static final int DRAFTS = Integer.getInteger("bellwire.drafts", 300);

  /** What people and surveys write, and what YAML reads otherwise when it is not quoted. */
  private static final List<String> NAMES =
      List.of(
          "red",
          "white/blue",
          "it's",
          "Y",
          "no",
          "~",
          "<<",
          "'",
          "\"",
          "#1",
          "a: b",
          "- x",
          "{",
          "[",
          "*a",
          "&a",
          "!t",
          "%",
          "@",
          "`",
          "12",
          "1e3",
          "null",
          "free",
          "أحمر",
          "红色/白色",
          "rot\u00e9",
          "a\\b",
          "x,y",
          "?",
          "|",
          ">",
          "x".repeat(60),
          "tab\there",
          "two\nlines",
          "\u0085nel",
          "\uD83D\uDD34",
          "P1",
          "metal");

  static Stream<String> examples() {
    return Described.EXAMPLES.stream();
  }

  @ParameterizedTest
  @MethodSource("examples")
  void aFileOfTheFirstFormIsReadAndCheckedAsBefore(String name) throws Exception {
    LandingDraft draft = LandingDraft.read(name, Described.text(name));
    LandingFile file = Described.example(name);
    assertThat(draft.landing().cable()).isEqualTo(file.cable());
    assertThat(draft.landing().asPlanned()).isEqualTo(file.asPlanned());
    LandingDraft again = LandingDraft.read("again", draft.text());
    assertThat(again).isEqualTo(draft);
    assertThat(LandingCheck.check(Objects.requireNonNull(again.installation(Which.AS_PLANNED))))
        .isEqualTo(LandingCheck.check(Objects.requireNonNull(file.planned())));
  }

  @Test
  void whateverIsEditedIsWrittenAndReadAgain() throws Exception {
    System.out.println("LandingDraftTest seed=" + SEED + " drafts=" + DRAFTS);
    Random random = new Random(SEED);
    for (int i = 0; i < DRAFTS; i++) {
      LandingDraft draft = drawn(random);
      for (int edits = random.nextInt(25); edits > 0; edits--) {
        draft = edited(draft, random);
      }
      assertThat(LandingDraft.read("draft " + i, draft.text()))
          .as("draft " + i + "\n" + draft.text())
          .isEqualTo(draft);
    }
  }

  @Test
  void anEditLeavesTheOneBeforeAsItWas() throws Exception {
    LandingDraft before = LandingDraft.read("x", Described.text("example-before-power"));
    String text = before.text();
    LandingDraft after = before.landed(Which.AS_PLANNED, "white", Side.FAR, "W1");
    assertThat(after).isNotEqualTo(before);
    assertThat(before.text()).isEqualTo(text);
    assertThat(after.landed(Which.AS_PLANNED, "white", Side.FAR, "Y1")).isEqualTo(before);
  }

  @Test
  void anotherControlFreesWhatItHasNoTerminalForAndKeepsTheRest() throws Exception {
    LandingDraft draft = LandingDraft.read("x", Described.text("example-furnace-cooling"));
    LandingDraft other = draft.withControl(new Part("heat-only-battery"));
    List<String> there = other.landing().control().terminals();
    for (var l : draft.plan(Which.AS_PLANNED).landed()) {
      var now =
          other.plan(Which.AS_PLANNED).landed().stream()
              .filter(o -> o.conductor().equals(l.conductor()))
              .findFirst()
              .orElseThrow();
      assertThat(now.near()).isEqualTo(l.near());
      assertThat(now.far()).isEqualTo(there.contains(l.far()) ? l.far() : null);
    }
    assertThat(other.plan(Which.AS_FOUND)).isEqualTo(draft.plan(Which.AS_FOUND));
  }

  @Test
  void aDescriptionOfOnesOwnStandsInTheTextWithItsCommentsAndIsBlamedByTheFilesLine()
      throws Exception {
    String own = "# as on the plate\n\n" + Described.text("furnace-cooling");
    LandingDraft draft =
        LandingDraft.read("x", Described.text("example-furnace-cooling"))
            .withEquipment(new Part(own));
    LandingDraft again = LandingDraft.read("again", draft.text());
    assertThat(again.equipment().text()).isEqualTo(own);
    assertThat(again).isEqualTo(draft);
    String slip = draft.text().replaceFirst("power: \\d+ VA", "power: 40 kg");
    int line = (int) slip.substring(0, slip.indexOf("40 kg")).lines().count();
    assertThatThrownBy(() -> LandingDraft.read("slip", slip))
        .isInstanceOf(FileException.class)
        .hasMessageContaining("slip:" + line + ": ")
        .hasMessageContaining("40 kg");
  }

  @Test
  void whatNamesAnotherFileIsRefused() {
    String beside =
        Described.text("example-boiler").replace("equipment: boiler", "equipment: mine");
    assertThatThrownBy(() -> LandingDraft.read("x", beside)).hasMessageContaining("x:");
    String surveyed =
        "bellwire-landing: 1\nequipment: boiler\ncontrol: one-stage\ncable: {survey: a.json}\n";
    assertThatThrownBy(() -> LandingDraft.read("x", surveyed))
        .hasMessageContaining("x:4: ")
        .hasMessageContaining("figures");
  }

  @Test
  void wrongFiguresAreRefusedWithTheirLine() {
    String head =
        "bellwire-landing: 1\nequipment: boiler\ncontrol: one-stage\ncable:\n  conductors:\n";
    Map<String, String> wrong =
        Map.of(
            "    red: {ohm: 0 ohm}\n", "x:6: ",
            "    red: 0.5 ohm\n    metal: 1 ohm\n", "x:7: ",
            "    red: {ohm: 1 ohm, broken-at: 0.5}\n", "x:6: ",
            "    red: {ohm: 1 ohm, port: P17}\n", "x:6: ",
            "    red: {ohm: 1 ohm, port: P1}\n    blue: {ohm: 1 ohm, port: P1}\n", "x:7: ",
            "    red: {ohm: 1 ohm, colour: red}\n", "x:6: ",
            "    red: {ohm: 1 ohm, uncertainty: -1 ohm}\n", "x:6: ");
    wrong.forEach(
        (text, where) ->
            assertThatThrownBy(() -> LandingDraft.read("x", head + text))
                .as(text)
                .isInstanceOf(FileException.class)
                .hasMessageStartingWith(where));
  }

  private static LandingDraft drawn(Random random) throws FileException {
    List<Cable.Conductor> conductors = new ArrayList<>();
    List<String> names = new ArrayList<>();
    Map<String, String> ports = new java.util.HashMap<>();
    Map<String, Integer> far = new java.util.HashMap<>();
    Map<String, String> doubtful = new java.util.HashMap<>();
    for (int i = 1 + random.nextInt(16); i > 0; i--) {
      String name = NAMES.get(random.nextInt(NAMES.size()));
      if (!names.contains(name)) {
        names.add(name);
        conductors.add(conductor(name, random));
        if (random.nextBoolean()) {
          ports.put(name, "P" + names.size());
        }
        if (random.nextBoolean()) {
          far.put(name, names.size());
        }
        if (random.nextInt(4) == 0) {
          doubtful.put(
              name, "surveyed as undecided (" + NAMES.get(random.nextInt(NAMES.size())) + ")");
        }
      }
    }
    List<Cable.Bridge> bridges = new ArrayList<>();
    for (int i = random.nextInt(4); i > 0; i--) {
      String other = random.nextBoolean() ? null : names.get(random.nextInt(names.size()));
      double ohms = Math.exp(random.nextDouble() * 20 - 6);
      bridges.add(new Cable.Bridge(names.get(0), other, ohms, random.nextDouble()));
    }
    SurveyedCable cable =
        new SurveyedCable(
            new Cable(random.nextBoolean() ? "" : "18-5", conductors, bridges),
            ports,
            far,
            doubtful,
            random.nextBoolean());
    return LandingDraft.start(
        NAMES.get(random.nextInt(NAMES.size())),
        equipment(random),
        control(random),
        random.nextBoolean() ? null : control(random),
        cable);
  }

  private static Cable.Conductor conductor(String name, Random random) {
    double ohms =
        random.nextInt(6) == 0 ? Double.POSITIVE_INFINITY : Math.exp(random.nextGaussian() * 3);
    String near = random.nextBoolean() ? null : NAMES.get(random.nextInt(NAMES.size()));
    double u = Double.isInfinite(ohms) || random.nextBoolean() ? 0 : random.nextDouble() * 0.01;
    double at = Double.isInfinite(ohms) ? random.nextDouble() : Double.NaN;
    return new Cable.Conductor(name, near, random.nextBoolean() ? near : null, ohms, u, at);
  }

  private static Part equipment(Random random) {
    String name = Described.EQUIPMENT.get(random.nextInt(Described.EQUIPMENT.size()));
    return new Part(random.nextInt(4) == 0 ? Described.text(name) : name);
  }

  private static Part control(Random random) {
    String name = Described.CONTROLS.get(random.nextInt(Described.CONTROLS.size()));
    return new Part(random.nextInt(4) == 0 ? Described.text(name) : name);
  }

  private static LandingDraft edited(LandingDraft draft, Random random) throws FileException {
    Which which = Which.values()[random.nextInt(2)];
    List<Cable.Conductor> all = draft.landing().cable().conductors();
    String conductor = all.isEmpty() ? "" : all.get(random.nextInt(all.size())).name();
    switch (random.nextInt(12)) {
      case 0:
        return draft.withControl(control(random));
      case 1:
        return draft.withEquipment(equipment(random));
      case 2:
        return draft.withOldControl(random.nextBoolean() ? null : control(random));
      case 3:
        return draft.titled(NAMES.get(random.nextInt(NAMES.size())));
      case 4:
        List<Control.Jumper> jumpers = draft.jumpers(which);
        return jumpers.isEmpty()
            ? draft.jumper(Which.AS_FOUND, near(draft), true)
            : draft.jumper(
                which, jumpers.get(random.nextInt(jumpers.size())), random.nextBoolean());
      case 5:
        return setting(draft, which, random);
      case 6:
        String name = NAMES.get(random.nextInt(NAMES.size())) + random.nextInt(1000);
        return draft.renamed(conductor, name);
      case 7:
        return draft.withCable(
            draft.landing().surveyed().with(conductor("new " + random.nextInt(9), random)));
      case 8:
        return all.size() < 2
            ? draft
            : draft.withCable(draft.landing().surveyed().without(conductor));
      default:
        Side side = random.nextBoolean() ? Side.NEAR : Side.FAR;
        List<String> terminals = draft.terminals(which, side);
        int t = random.nextInt(terminals.size() + 1);
        return draft.landed(
            which, conductor, side, t == terminals.size() ? null : terminals.get(t));
    }
  }

  private static Control.Jumper near(LandingDraft draft) {
    List<String> t = draft.terminals(Which.AS_FOUND, Side.NEAR);
    return new Control.Jumper(Side.NEAR, t.get(0), t.get(1));
  }

  private static LandingDraft setting(LandingDraft draft, Which which, Random random) {
    Control control = draft.control(which);
    if (control == null || control.settings().isEmpty()) {
      return draft;
    }
    Control.Setting s = control.settings().get(random.nextInt(control.settings().size()));
    return draft.setting(which, s.name(), s.choices().get(random.nextInt(s.choices().size())));
  }
}
