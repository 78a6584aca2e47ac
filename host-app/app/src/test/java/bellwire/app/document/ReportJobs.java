package bellwire.app.document;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.survey.CableFacts;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndKind;
import bellwire.app.bench.BenchTransport;
import bellwire.app.job.Act;
import bellwire.app.job.CableRow;
import bellwire.app.job.Checklist;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobRecords;
import bellwire.app.job.LandingRow;
import bellwire.app.job.Photo;
import bellwire.app.job.Stage;
import bellwire.app.job.Tick;
import bellwire.app.landing.Described;
import bellwire.app.rehearsal.Operator;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.app.rehearsal.Step;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.SurveyListener;
import bellwire.app.survey.SurveyOptions;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.visit.Boards;
import bellwire.app.visit.RehearsalOrder;
import bellwire.app.visit.SurveyOrder;
import bellwire.app.visit.VigilRunning;
import bellwire.app.visit.Visit;
import bellwire.board.CodedPlug;
import bellwire.link.Message.KeepVigil.Kind;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import javax.imageio.ImageIO;

/** Jobs for reports, measured on simulated benches. */
final class ReportJobs {
  static final Instant MADE = Instant.parse("2026-11-26T14:30:00Z");
  private static final long AT = MADE.toEpochMilli() * 1000 - 3_600_000_000L;
  private static final long WAIT_SECONDS = 120;

  private ReportJobs() {}

  static ReportContents none() {
    return new ReportContents(
        Path.of("none"),
        MADE,
        ZoneOffset.UTC,
        "",
        Map.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        "",
        List.of());
  }

  static ReportContents contents(Path job) throws Exception {
    return ReportContents.gather(job, MADE, ZoneOffset.UTC, "0.7-test");
  }

  private static SurveyOptions options(boolean inPlace) {
    return new SurveyOptions(
        0,
        inPlace ? Set.of() : EnumSet.of(FarEndKind.CODED, FarEndKind.TIE),
        2_000_000,
        180_000_000,
        0,
        60_000_000,
        BoardModels.plug(CodedPlug.nominal()),
        new CableFacts(Gauge.awg(18), Double.NaN, 21, 3),
        Criteria.standard());
  }

  private static final Operator NOBODY =
      new Operator() {
        @Override
        public Answer begin(Step step, int number, int of, Idle idle) {
          throw new AssertionError("the simulation's hands do it");
        }

        @Override
        public Next look(Moment moment) {
          return Next.WAIT;
        }

        @Override
        public String observe(Step step, Idle idle) {
          throw new AssertionError("nobody is there to look");
        }
      };

  /** Everything that a job can hold, on the demo's house. */
  static Path whole(Path directory) throws Exception {
    Path file = directory.resolve("house.bellwire");
    Map<Integer, String> colours =
        Map.of(
            0, "red", 1, "white", 2, "green", 3, "blue", 4, "yellow", 5, "brown", 6, "orange", 7,
            "black");
    long cable;
    try (JobFile job = JobFile.open(file)) {
      JobRecords r = job.records();
      facts(r, "A. Householder", "12 Some Street, upstairs hall");
      acts(r);
      cable =
          r.put(
              new CableRow(
                  0, "18-8", "18 AWG", 24.5, 21, "furnace, cellar", "landing, first floor", ""));
      for (Map.Entry<Integer, String> e : new TreeMap<>(colours).entrySet()) {
        String far = e.getKey() == 5 ? "violet" : e.getValue();
        r.put(new ConductorRow(cable, e.getKey(), e.getValue(), far, ""));
      }
      r.put(new LandingRow(0, cable, AT, Described.text("example-before-power")));
      ticks(r);
      r.add(new Photo(0, Stage.AS_FOUND, "Old control, cover off", AT, "", 0), photo(900, 600));
      r.add(new Photo(0, Stage.AS_LEFT, "New control", AT, "", 0), photo(600, 900));
      r.add(new Photo(0, Stage.AS_LEFT, "Terminal strip in the furnace", AT, "", 0), photo(64, 48));
    }
    try (Visit visit = Visit.open(file, new Boards.Demo(false))) {
      visit
          .survey(
              new SurveyOrder(cable, Stage.AS_FOUND, true, options(true), colours, 60),
              SurveyListener.silent())
          .done()
          .get(WAIT_SECONDS, TimeUnit.SECONDS);
      visit
          .survey(
              new SurveyOrder(cable, Stage.AS_FOUND, false, options(false), colours, 60),
              SurveyListener.silent())
          .done()
          .get(WAIT_SECONDS, TimeUnit.SECONDS);
      visit
          .rehearse(
              new RehearsalOrder(
                  "furnace-cooling",
                  RehearsalFile.text("furnace-cooling"),
                  Map.of(),
                  Set.of(),
                  false,
                  true),
              NOBODY,
              note -> {},
              change -> {})
          .done()
          .get(WAIT_SECONDS, TimeUnit.SECONDS);
      VigilRunning vigil =
          visit.vigil(
              new VigilOrder(
                  VigilOrder.LEAST_NUMBER + 7,
                  Kind.CONTINUITY,
                  0b101111,
                  Map.of(0, "red", 1, "white"),
                  0,
                  false,
                  0,
                  3_600_000_000L,
                  Double.NaN,
                  0,
                  60,
                  ""),
              view -> {},
              note -> {});
      vigil.mark("shook the cable at the landing");
      vigil.done().get(WAIT_SECONDS, TimeUnit.SECONDS);
    }
    Path mended = directory.resolve("mended.yaml");
    Files.writeString(mended, bench(8, ""));
    survey(file, mended, cable, Stage.AS_LEFT, colours);
    return file;
  }

  private static void survey(
      Path file, Path bench, long cable, Stage stage, Map<Integer, String> colours)
      throws Exception {
    try (Visit visit = Visit.open(file, new Boards.Bench(bench, BenchTransport.Pace.FAST))) {
      visit
          .survey(
              new SurveyOrder(cable, stage, false, options(false), colours, 60),
              SurveyListener.silent())
          .done()
          .get(WAIT_SECONDS, TimeUnit.SECONDS);
    }
  }

  static String bench(int conductors, String faults) {
    StringBuilder yaml = new StringBuilder("bellwire-bench: 1\nseed: 20261126\ncable:\n");
    yaml.append("  gauge: 18 AWG\n  length: 24.5 m\n  temperature: 21 C\n  conductors:\n");
    for (int i = 1; i <= conductors; i++) {
      yaml.append("    - {port: P").append(i).append(", colour: c").append(i).append(", far: ");
      yaml.append((i * 7) % 17 == 0 ? 1 : (i * 7) % 17).append("}\n");
    }
    yaml.append(faults);
    yaml.append("far-end: [{from: 0 s, plug: open}, {from: 60 s, plug: coded},");
    yaml.append(" {from: 95 s, plug: tie}]\n");
    return yaml.toString();
  }

  /** A cable with the given names for its conductors, and little else. */
  static Path named(Path directory, String customer, List<String> names, String faults, Stage stage)
      throws Exception {
    Path file = directory.resolve("job.bellwire");
    Map<Integer, String> colours = new TreeMap<>();
    for (int i = 0; i < names.size(); i++) {
      colours.put(i, names.get(i));
    }
    long cable;
    try (JobFile job = JobFile.open(file)) {
      JobRecords r = job.records();
      facts(r, customer, customer);
      cable =
          r.put(
              new CableRow(
                  0, customer, "18 AWG", Double.NaN, Double.NaN, customer, customer, customer));
      for (Map.Entry<Integer, String> e : colours.entrySet()) {
        r.put(new ConductorRow(cable, e.getKey(), e.getValue(), e.getValue() + "2", customer));
      }
      r.add(new Act(0, Act.Kind.SWITCHED_OFF, customer, customer, customer, AT, true));
      r.put(new Tick("level", Tick.State.DONE, Tick.Basis.ASSUMED, customer, AT, customer));
      r.add(new Photo(0, Stage.AS_FOUND, customer, AT, "", 0), photo(40, 300));
    }
    Path bench = directory.resolve("bench.yaml");
    Files.writeString(bench, bench(names.size(), faults));
    survey(file, bench, cable, stage, colours);
    return file;
  }

  private static void facts(JobRecords r, String customer, String place) throws IOException {
    r.fact(Fact.CUSTOMER, customer);
    r.fact(Fact.PLACE, place);
    r.fact(Fact.TECHNICIAN, "T. Echnician");
    r.fact(Fact.SYSTEM, "gas furnace with cooling, 24 V");
    r.fact(Fact.OLD_CONTROL, "two-stage control, battery");
    r.fact(Fact.NEW_CONTROL, "one-stage control with C");
    r.fact(Fact.REASON, "the heat fails on some days");
    r.fact(
        Fact.SUMMARY, "The cable was damaged behind a picture. It is mended and the heat works.");
    r.fact(Fact.MAINS_HERTZ, "60");
  }

  private static void acts(JobRecords r) throws IOException {
    r.add(new Act(0, Act.Kind.CAUTIONS_READ, "all of them", "", "T. Echnician", AT, false));
    r.add(
        new Act(
            0,
            Act.Kind.SWITCHED_OFF,
            "furnace switch in the cellar",
            "",
            "T. Echnician",
            AT,
            false));
    long wrong =
        r.add(
            new Act(
                0,
                Act.Kind.PROVED_DEAD,
                "R to C",
                "24.3 V",
                "T. Echnician",
                AT + 60_000_000L,
                false));
    r.withdrawAct(wrong);
    r.add(
        new Act(
            0,
            Act.Kind.PROVED_DEAD,
            "R to C, live, dead, live",
            "230.4 V, 0.0 V, 230.3 V",
            "T. Echnician",
            AT + 120_000_000L,
            false));
    r.add(
        new Act(
            0,
            Act.Kind.FUSE_REPLACED,
            "3 A blade fuse, by the same type and rating, after the cause was found",
            "",
            "T. Echnician",
            AT + 180_000_000L,
            false));
  }

  private static void ticks(JobRecords r) throws IOException {
    int i = 0;
    for (Checklist.Item item : Checklist.items()) {
      Tick.State state =
          i % 7 == 5 ? Tick.State.NOT_DONE : i % 7 == 6 ? Tick.State.NOT_NEEDED : Tick.State.DONE;
      if (i % 5 != 4) {
        Tick.Basis basis = Tick.Basis.values()[i % 3];
        String note = state == Tick.State.NOT_DONE ? "no sealant at hand" : "";
        r.put(new Tick(item.key(), state, basis, "T. Echnician", AT + i * 1_000_000L, note));
      }
      i++;
    }
  }

  static byte[] photo(int width, int height) throws IOException {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setColor(new Color(0xd8e4ee));
    g.fillRect(0, 0, width, height);
    g.setColor(new Color(0x27506b));
    g.fillOval(width / 4, height / 4, width / 2, height / 2);
    g.setColor(Color.RED);
    g.fillRect(0, 0, width / 8 + 1, height / 8 + 1);
    g.dispose();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(image, "png", out);
    return out.toByteArray();
  }
}
