package bellwire.fuzz;

import bellwire.app.job.Act;
import bellwire.app.job.CableRow;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobRecords;
import bellwire.app.job.LandingRow;
import bellwire.app.job.Mark;
import bellwire.app.job.Photo;
import bellwire.app.job.RehearsalRow;
import bellwire.app.job.Source;
import bellwire.app.job.Stage;
import bellwire.app.job.Stream;
import bellwire.app.job.SurveyRow;
import bellwire.app.job.Tick;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilStore;
import bellwire.app.job.Watched;
import bellwire.app.landing.Described;
import bellwire.app.rehearsal.RehearsalFile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.zip.GZIPOutputStream;

/** A job with something in every table. */
final class SampleJob {
  private static final long AT = 1_795_000_000_000_000L;
  private static final int TICK_MICROS = 1000;
  private static final int CODE_MICROS = 20_000;

  /** One white pixel. */
  private static final String PNG =
      "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8/5+hHgAHggJ/PchI7wAAAABJRU5Er"
          + "kJggg==";

  private SampleJob() {}

  static void write(Path file) throws IOException {
    try (JobFile job = JobFile.open(file)) {
      records(job.records());
      vigil(job, "continuity");
      vigil(job, "trend");
    }
  }

  private static void records(JobRecords records) throws IOException {
    for (Fact fact : Fact.values()) {
      records.fact(fact, fact == Fact.UNITS ? "metres" : "some " + fact);
    }
    records.add(new Act(0, Act.Kind.PROVED_DEAD, "R to C", "0.0 V", "A. Person", AT, false));
    long cable =
        records.put(new CableRow(0, "18-5", "18 AWG", 24.5, 20, "furnace", "hall", "a note"));
    records.put(new ConductorRow(cable, 0, "red", "red", "spliced"));
    records.put(new ConductorRow(cable, 1, "white", "violet", ""));
    String survey = new String(Examples.resource("survey.json"), StandardCharsets.UTF_8);
    records.add(new SurveyRow(0, cable, false, Stage.AS_FOUND, AT, survey, new byte[0]));
    records.put(new LandingRow(0, cable, AT, Described.text("example-heat-only")));
    records.add(
        new RehearsalRow(
            0,
            AT,
            false,
            RehearsalFile.text("boiler-dry"),
            List.of(),
            "{\"rehearsal\":\"boiler-dry\"}",
            packed(Examples.records().get(0))));
    records.put(new Tick("fuse", Tick.State.DONE, Tick.Basis.WITNESSED, "A. Person", AT, "3 A"));
    byte[] picture = Base64.getDecoder().decode(PNG);
    records.add(new Photo(0, Stage.AS_LEFT, "the new control", AT, "", 0), picture);
    records.left("page", "survey");
  }

  private static byte[] packed(byte[] plain) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (GZIPOutputStream zip = new GZIPOutputStream(out)) {
      zip.write(plain);
    }
    return out.toByteArray();
  }

  private static void vigil(JobFile job, String program) throws IOException {
    Map<Integer, String> names = Map.of(0, "red", 1, "white");
    Watched watched =
        new Watched(9, program, 3, 0, false, 0, 60_000_000, "", "a note", Double.NaN, 1, 60, names);
    try (VigilStore store = job.startVigil(watched, AT, 0, () -> 0)) {
      if (program.equals("trend")) {
        Stream codes = store.addCodes("P1", CODE_MICROS);
        for (int i = 0; i < 200; i++) {
          store.appendCode(codes, (long) i * CODE_MICROS, 4000 + i % 7);
        }
      } else {
        Stream words = store.addWords("ports", TICK_MICROS);
        store.appendTicks(words, 0, 20_000, 0, 0);
        store.appendTicks(words, 20_000_000, 3, 2, 2);
        store.gap(words, 21_000_000, "the agent was away");
        store.appendTicks(words, 21_000_000, 500, 0, 0);
      }
      store.event(
          new VigilEvent(1, 1, 0, 20_000_000, 20_003_000, 20_004_000, 1, false, false, true));
      store.mark(new Mark(1_000_000, "shook the cable"));
      store.arrived(new Source(71, 12, 0));
      store.ended(22_000_000, "its time was over");
      store.commit();
    }
  }
}
