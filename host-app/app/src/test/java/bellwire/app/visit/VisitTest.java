package bellwire.app.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.survey.CableFacts;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndKind;
import bellwire.app.job.CableRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobReader;
import bellwire.app.job.RehearsalRow;
import bellwire.app.job.Stage;
import bellwire.app.job.Stream;
import bellwire.app.job.SurveyRow;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.rehearsal.Operator;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.Step;
import bellwire.app.report.Cautions;
import bellwire.app.report.RehearsalJson;
import bellwire.app.report.ResultJson;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.SurveyListener;
import bellwire.app.survey.SurveyOptions;
import bellwire.app.survey.SurveyRun;
import bellwire.app.survey.SurveyTape;
import bellwire.app.vigil.Counting;
import bellwire.app.vigil.StoredVigil.Part;
import bellwire.app.vigil.VigilLoader;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilRun;
import bellwire.board.BoardDescription;
import bellwire.board.CodedPlug;
import bellwire.link.Message.KeepVigil.Kind;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The visit's services on the demo's house: what they do is in the file, and nothing is lost. */
class VisitTest {
  private static final long WAIT_SECONDS = 120;
  private static final Map<Integer, String> COLOURS = Map.of(0, "red", 1, "white");

  @TempDir Path directory;
  private Path file = Path.of("");
  private Visit visit;
  private final List<Change> told = Collections.synchronizedList(new ArrayList<>());

  @BeforeEach
  void open() throws JobFileException {
    file = directory.resolve("house.bellwire");
    visit = Visit.open(file, new Boards.Demo(false));
    visit.listen(told::add);
  }

  @AfterEach
  void close() throws JobFileException {
    visit.close();
  }

  static SurveyOptions options(Set<FarEndKind> plugs) {
    return new SurveyOptions(
        0,
        plugs,
        2_000_000,
        180_000_000,
        0,
        60_000_000,
        BoardModels.plug(CodedPlug.nominal()),
        new CableFacts(Gauge.awg(18), Double.NaN, 21, 3),
        Criteria.standard());
  }

  private long cable() throws Exception {
    return visit
        .change(
            Change.CABLES,
            all -> all.put(new CableRow(0, "18-8", "18 AWG", Double.NaN, 21, "", "", "")))
        .get();
  }

  private SurveyOrder order(boolean inPlace) throws Exception {
    Set<FarEndKind> plugs = inPlace ? Set.of() : EnumSet.of(FarEndKind.CODED, FarEndKind.TIE);
    return new SurveyOrder(cable(), Stage.AS_FOUND, inPlace, options(plugs), COLOURS, 60);
  }

  private static <T> T done(Running<T> running) throws Exception {
    return running.done().get(WAIT_SECONDS, TimeUnit.SECONDS);
  }

  @Test
  void aSurveyIsInTheFileAndCanBeComputedAgain() throws Exception {
    SurveyOrder order = order(false);
    SurveyRow row = done(visit.survey(order, SurveyListener.silent()));
    assertThat(visit.running()).isEmpty();
    assertThat(told).contains(Change.SURVEYS);
    visit.close();
    try (JobReader reader = JobReader.open(file)) {
      SurveyRow stored = reader.records().surveys().get(0);
      assertThat(stored.json()).isEqualTo(row.json()).contains("broken").contains("P7");
      try (SurveyTape.Player tape = new SurveyTape.Player(stored.readings())) {
        SurveyRun again =
            new SurveyRun(
                tape,
                BoardModels.of(BoardDescription.revisionA()),
                order.options(),
                SurveyListener.silent());
        assertThat(ResultJson.text(again.run(), COLOURS, Cautions.lines()))
            .isEqualTo(stored.json());
      }
    }
  }

  @Test
  void aSurveyThatIsStoppedSaysThatTheBoardHasLetGo() throws Exception {
    CountDownLatch begun = new CountDownLatch(1);
    SurveyListener listener =
        new SurveyListener() {
          @Override
          public void phase(String title) {
            begun.countDown();
          }

          @Override
          public void progress(double share) {}

          @Override
          public void waiting(String forWhat, String seen, long secondsLeft) {}

          @Override
          public void note(String words) {}
        };
    Running<SurveyRow> running = visit.survey(order(false), listener);
    assertThat(begun.await(WAIT_SECONDS, TimeUnit.SECONDS)).isTrue();
    running.cancel();
    assertThatThrownBy(() -> done(running))
        .isInstanceOf(ExecutionException.class)
        .hasCauseInstanceOf(Stopped.class)
        .hasMessageContaining("let go");
    assertThat(visit.ask(all -> all.surveys()).get()).isEmpty();
  }

  @Test
  void thereIsOneBoard() throws Exception {
    Running<SurveyRow> first = visit.survey(order(true), SurveyListener.silent());
    Running<SurveyRow> second = visit.survey(order(true), SurveyListener.silent());
    assertThatThrownBy(() -> done(second))
        .hasCauseInstanceOf(InstrumentTrouble.class)
        .hasMessageContaining("a survey");
    assertThat(done(first).json()).contains("\"landing\"");
  }

  @Test
  void aRehearsalIsJudgedAgainFromItsRecord() throws Exception {
    List<String> steps = Collections.synchronizedList(new ArrayList<>());
    Operator operator =
        new Operator() {
          @Override
          public Answer begin(Step step, int number, int of, Idle idle) {
            throw new AssertionError("the simulation's hands do it");
          }

          @Override
          public void told(Step step, int number, int of) {
            steps.add(step.name());
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
    RehearsalOrder order =
        new RehearsalOrder(
            "furnace-cooling",
            RehearsalFile.text("furnace-cooling"),
            Map.of("rest", "4 min"),
            Set.of(),
            false,
            true);
    RehearsalRow row = done(visit.rehearse(order, operator, note -> {}, change -> {}));
    assertThat(row.json()).contains("no-rest").contains("240");
    assertThat(steps).contains("cool-again");
    RehearsalOutcome again = StoredRehearsal.outcome(row);
    assertThat(RehearsalJson.text(again, Set.of(), false, Cautions.lines())).isEqualTo(row.json());
  }

  @Test
  void aVigilGoesOnBesideTheJobAndTakesMarks() throws Exception {
    VigilOrder order =
        new VigilOrder(
            VigilOrder.LEAST_NUMBER + 7,
            Kind.CONTINUITY,
            0b101111,
            Map.of(1, "white"),
            0,
            false,
            0,
            3_600_000_000L,
            Double.NaN,
            0,
            60,
            "");
    List<Long> watched = Collections.synchronizedList(new ArrayList<>());
    VigilRunning vigil = visit.vigil(order, view -> watched.add(view.watchedMicros()), note -> {});
    vigil.mark("shook the cable");
    visit.change(Change.FACTS, all -> fact(all)).get();
    VigilRunning.End end = done(vigil);
    assertThat(end.words()).contains("time was over");
    assertThat(end.letGo()).isTrue();
    assertThat(watched).isSorted().hasSizeGreaterThan(10);
    assertThat(told).contains(Change.VIGILS, Change.FACTS);
    try (JobReader reader = JobReader.open(file)) {
      assertThat(reader.vigils()).hasSize(1);
      assertThat(reader.records().fact(Fact.REASON)).isEqualTo("works on some days only");
    }
    assertThat(VigilLoader.load(file, end.vigil(), Part.ALL, Counting.EACH, share -> {}).marks())
        .extracting("text")
        .contains("shook the cable");
  }

  @Test
  void nothingBeginsOnAJobThatIsClosed() throws Exception {
    SurveyOrder order = order(false);
    visit.close();
    Running<SurveyRow> late = visit.survey(order, SurveyListener.silent());
    assertThatThrownBy(() -> done(late))
        .hasCauseInstanceOf(InstrumentTrouble.class)
        .hasMessageContaining("closed");
    assertThat(visit.running()).isEmpty();
  }

  /** As when the window is closed over it. */
  @Test
  void aVigilThatTheProgramLeavesIsWholeAndIsGoneOnWith() throws Exception {
    visit.boards(new Boards.Demo(true));
    VigilOrder order =
        new VigilOrder(
            VigilOrder.LEAST_NUMBER + 8,
            Kind.CONTINUITY,
            0b101111,
            Map.of(1, "white"),
            0,
            false,
            0,
            7_200_000_000L,
            Double.NaN,
            0,
            60,
            "");
    CountDownLatch seen = new CountDownLatch(3);
    VigilRunning vigil = visit.vigil(order, view -> seen.countDown(), note -> {});
    assertThat(seen.await(WAIT_SECONDS, TimeUnit.SECONDS)).isTrue();
    visit.close();
    assertThat(done(vigil).left()).isTrue();
    VigilRow left = VigilReader.vigils(file).get(0);
    assertThat(left.ending()).isEmpty();
    try (VigilReader reader = VigilReader.open(file, left.id())) {
      for (Stream stream : reader.streams()) {
        long last = reader.lastMicros(stream).orElseThrow();
        assertThat(reader.samples(stream, left.startedMicros(), last, (at, n, v, l) -> {}))
            .isEmpty();
      }
    }
    visit = Visit.open(file, new Boards.Demo(false));
    VigilOrder again = VigilRun.order(file, left);
    assertThat(again.number()).isEqualTo(order.number());
    VigilRunning resumed = visit.resume(left, again, view -> {}, note -> {});
    assertThat(done(resumed).vigil()).isEqualTo(left.id());
    assertThat(VigilReader.vigils(file)).singleElement().matches(v -> v.ending().isPresent());
  }

  /** The board lets go of the cable; nothing half measured is in the file. */
  @Test
  void aSurveyEndsWithTheProgram() throws Exception {
    visit.boards(new Boards.Demo(true));
    CountDownLatch begun = new CountDownLatch(1);
    Running<SurveyRow> survey =
        visit.survey(
            order(false),
            new SurveyListener() {
              @Override
              public void phase(String title) {
                begun.countDown();
              }

              @Override
              public void progress(double share) {}

              @Override
              public void waiting(String forWhat, String sight, long secondsLeft) {}

              @Override
              public void note(String words) {}
            });
    assertThat(begun.await(WAIT_SECONDS, TimeUnit.SECONDS)).isTrue();
    visit.close();
    assertThatThrownBy(() -> done(survey))
        .cause()
        .isInstanceOfSatisfying(Stopped.class, s -> assertThat(s.letGo()).isTrue());
    visit = Visit.open(file, new Boards.Demo(false));
    assertThat(visit.ask(all -> all.surveys()).get()).isEmpty();
  }

  private static boolean fact(bellwire.app.job.JobRecords all) throws JobFileException {
    all.fact(Fact.REASON, "works on some days only");
    return true;
  }
}
