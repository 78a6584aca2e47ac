package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.Foreign;
import bellwire.analysis.survey.ForeignCheck;
import bellwire.app.survey.RandomCable.Fault;
import bellwire.yaml.FileException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * 26 V AC or 5 V DC between any two ports at any moment of a survey: the board's own latch lets go
 * within 2 ms, the survey ends without a result, and says which ports and what voltage.
 */
class ForeignVoltageTest {
  private static final int DRAWS = Integer.getInteger("bellwire.draws", 64);
  private static final int DRAWS_A_CABLE = 16;
  private static final long LATCH_MICROS = 2000;

  /** Without an edge for 50 ms the watchdog lets go; relays take half a millisecond. */
  private static final long WATCHDOG_MICROS = 60_000;

  /** Times at which a survey's parts began when nothing was live. */
  private static final class Timetable implements SurveyListener {
    final Map<String, Long> begins = new TreeMap<>();
    private final WatchedBench bench;

    Timetable(WatchedBench bench) {
      this.bench = bench;
    }

    @Override
    public void phase(String title) {
      begins.putIfAbsent(title, bench.nowMicros());
    }

    @Override
    public void progress(double share) {}

    @Override
    public void waiting(String forWhat, String seen, long secondsLeft) {}

    @Override
    public void note(String words) {}

    long begin(String start) {
      return begins.entrySet().stream()
          .filter(e -> e.getKey().startsWith(start))
          .mapToLong(Map.Entry::getValue)
          .findFirst()
          .orElseThrow(() -> new IllegalStateException("no part begins with " + start));
    }
  }

  private static final Map<Long, Timetable> TIMETABLES = new TreeMap<>();

  /** What the window spans with the excitation on: more than that is always outside somewhere. */
  private static final double WINDOW_SPAN_VOLTS = 3.5;

  private static final class Row {
    int draws;
    int connected;
    int excited;
    long worstLatch;
    long worstOff;
    int shorted;
    int named;
    int exactly;
    final List<String> wrong = new ArrayList<>();
  }

  @Test
  void theBoardLetsGoAndTheSurveySaysWhatIsThere() throws Exception {
    Map<String, Row> rows = new TreeMap<>();
    for (int draw = 0; draw < DRAWS; draw += DRAWS_A_CABLE) {
      RandomCable cable = cable(draw);
      Timetable healthy = timetable(cable);
      Random random = new Random(cable.seed * 0x9E3779B97F4A7C15L);
      for (int k = 0; k < DRAWS_A_CABLE && draw + k < DRAWS; k++) {
        String part = part(k);
        ForeignBench bench = ForeignBench.draw(random, cable, moment(random, healthy, part));
        one(bench, rows.computeIfAbsent(part + ", " + bench.kind(), r -> new Row()));
      }
    }
    print(rows);
    assertThat(rows.values())
        .allSatisfy(
            row -> {
              assertThat(row.wrong).isEmpty();
              assertThat(row.worstOff).isLessThanOrEqualTo(LATCH_MICROS);
              assertThat(row.named).isEqualTo(row.draws - row.shorted);
            });
  }

  private static RandomCable cable(int draw) {
    Fault[] faults = {Fault.NONE, Fault.JOINT, Fault.OPEN, Fault.LEAK};
    return new RandomCable(1000 + draw, faults[draw / DRAWS_A_CABLE % faults.length]);
  }

  private static Timetable timetable(RandomCable cable) throws Exception {
    Timetable known = TIMETABLES.get(cable.seed);
    if (known != null) {
      return known;
    }
    WatchedBench bench =
        new WatchedBench(ForeignBench.healthy(cable), WatchedBench.NEVER, WatchedBench.NEVER);
    Timetable times = new Timetable(bench);
    SurveyOutcome outcome = survey(bench, times);
    assertThat(outcome.stoppedByVoltage()).as("%s: false alarm", cable).isFalse();
    times.begins.put("end", bench.nowMicros());
    TIMETABLES.put(cable.seed, times);
    return times;
  }

  private static String part(int k) {
    return switch (k % 8) {
      case 0 -> "1 before the start";
      case 1 -> "2 while it looks and arms";
      case 2, 3, 4 -> "3 far end open";
      case 5, 6 -> "4 waiting, coded plug";
      default -> "5 waiting, tie plug";
    };
  }

  private static long moment(Random random, Timetable healthy, String part) {
    long open = healthy.begin("far end open");
    long coded = (long) (ForeignBench.CODED_SECONDS * 1e6);
    long tie = (long) (ForeignBench.TIE_SECONDS * 1e6);
    long end = healthy.begin("end");
    return switch (part.charAt(0)) {
      case '1' -> 0;
      case '2' -> between(random, 0, open);
      case '3' -> between(random, open, Math.min(coded, open + 20_000_000));
      case '4' -> between(random, coded - 1_000_000, Math.min(tie, end - 3_000_000));
      default -> between(random, Math.min(tie, end - 6_000_000), end - 3_000_000);
    };
  }

  private static long between(Random random, long low, long high) {
    return low + (long) (random.nextDouble() * (high - low));
  }

  private static SurveyOutcome survey(WatchedBench bench, SurveyListener listener)
      throws InstrumentTrouble {
    try (var instrument = SimulatedSurvey.instrument(bench)) {
      return new SurveyRun(instrument, SimulatedSurvey.BOARD, SimulatedSurvey.options(), listener)
          .run();
    }
  }

  private static void one(ForeignBench drawn, Row row) throws FileException {
    WatchedBench bench = new WatchedBench(drawn.yaml(), drawn.fromMicros(), WatchedBench.NEVER);
    row.draws++;
    SurveyOutcome outcome;
    try {
      outcome = survey(bench, SurveyListener.silent());
    } catch (InstrumentTrouble e) {
      row.wrong.add("trouble " + e.getMessage() + ": " + drawn);
      return;
    }
    row.connected += bench.wasConnected ? 1 : 0;
    row.excited += bench.wasExcited ? 1 : 0;
    // A plug or a fault between the two ports may short the source down to less than the window.
    double there = Math.abs(bench.trueVolts(drawn.a(), drawn.b()));
    boolean latching = there * (drawn.hertz() == 0 ? 1 : Math.sqrt(2)) > WINDOW_SPAN_VOLTS;
    if (latching) {
      row.worstLatch = Math.max(row.worstLatch, bench.latchedAfterMicros);
      row.worstOff = Math.max(row.worstOff, bench.offAfterMicros);
    } else {
      row.shorted++;
    }
    if (bench.cameBack > 0 || bench.cleared > 0) {
      row.wrong.add("armed again: " + drawn);
    }
    if (latching && bench.offAfterMicros > LATCH_MICROS) {
      row.wrong.add("off after micros=" + bench.offAfterMicros + ": " + drawn);
    }
    if (outcome.result() != null && there < ForeignCheck.DRIVEN_AC_VOLTS) {
      return; // the copper itself shorts it: see SmallVoltageTest
    }
    if (outcome.result() != null) {
      row.wrong.add("a result: " + drawn);
      return;
    }
    if (!latching) {
      return; // where current flows through the plug, many pairs differ by little
    }
    Foreign said = outcome.foreign();
    String wrong = said == null ? "nothing" : wrongName(said, drawn, bench);
    if (said != null && wrong.isEmpty()) {
      row.named++;
      row.exactly += Set.of(said.a(), said.b()).equals(drawn.ports()) ? 1 : 0;
    } else {
      row.wrong.add("named " + wrong + ": " + drawn);
    }
  }

  /**
   * Ports that a plug or a fault joins stand at one voltage, and no meter at this end tells which
   * of them the source is clamped to: there all of them must be named.
   */
  private static String wrongName(Foreign said, ForeignBench drawn, WatchedBench bench) {
    Set<Integer> all = new TreeSet<>(said.alike());
    all.add(said.a());
    all.add(said.b());
    double there = bench.trueVolts(said.a(), said.b());
    boolean right =
        all.containsAll(drawn.ports())
            && there >= 0.97 * Math.abs(bench.trueVolts(drawn.a(), drawn.b()))
            && Math.abs(said.volts() - there) < 0.05 * there
            && said.alternating() == (drawn.hertz() != 0)
            && said.driven();
    return right ? "" : said.words() + " (there: " + there + ")";
  }

  private static void print(Map<String, Row> rows) {
    System.out.printf(
        "%-36s %6s %10s %8s %10s %8s %8s %6s %8s%n",
        "moment, voltage",
        "draws",
        "connected",
        "excited",
        "latch us",
        "off us",
        "shorted",
        "named",
        "exactly");
    rows.forEach(
        (name, r) ->
            System.out.printf(
                "%-36s %6d %10d %8d %10d %8d %8d %6d %8d%n",
                name,
                r.draws,
                r.connected,
                r.excited,
                r.worstLatch,
                r.worstOff,
                r.shorted,
                r.named,
                r.exactly));
    rows.values().forEach(r -> r.wrong.forEach(w -> System.out.println("WRONG " + w)));
  }

  /** A hung agent changes nothing: what lets go is hardware. */
  @Test
  void theBoardLetsGoWithTheAgentFrozen() throws Exception {
    long worstLatch = 0;
    long worstWatchdog = 0;
    int connected = 0;
    int cables = Math.max(4, DRAWS / 40);
    for (int draw = 0; draw < cables; draw++) {
      RandomCable cable = cable(draw * DRAWS_A_CABLE);
      Random random = new Random((77 + draw) * 0x9E3779B97F4A7C15L);
      long open = timetable(cable).begin("far end open");
      for (int k = 0; k < 4; k++) {
        long freeze = between(random, open, open + 12_000_000);
        long gap = k % 2 == 0 ? random.nextInt(40_000) : 200_000;
        ForeignBench drawn = ForeignBench.draw(random, cable, freeze + gap);
        WatchedBench latch = new WatchedBench(drawn.yaml(), drawn.fromMicros(), freeze);
        survives(latch, drawn.fromMicros() + 100_000);
        assertThat(latch.cameBack).as("%s", drawn).isZero();
        worstLatch = Math.max(worstLatch, latch.offAfterMicros);
        connected += latch.wasConnected ? 1 : 0;

        WatchedBench watchdog = new WatchedBench(ForeignBench.healthy(cable), freeze, freeze);
        survives(watchdog, freeze + 200_000);
        worstWatchdog = Math.max(worstWatchdog, watchdog.openAfterMicros);
      }
    }
    System.out.printf(
        "agent frozen: draws=%d connected=%d worst micros to off by the latch=%d, to open relays by"
            + " the watchdog=%d%n",
        4 * cables, connected, worstLatch, worstWatchdog);
    assertThat(connected).isPositive();
    assertThat(worstLatch).isLessThanOrEqualTo(LATCH_MICROS);
    assertThat(worstWatchdog).isLessThanOrEqualTo(WATCHDOG_MICROS);
  }

  /** Surveys until a time, at which the person gives up. */
  private static void survives(WatchedBench bench, long untilMicros) throws InstrumentTrouble {
    try (var instrument =
        SimulatedSurvey.instrument(bench, () -> bench.nowMicros() > untilMicros)) {
      new SurveyRun(
              instrument, SimulatedSurvey.BOARD, SimulatedSurvey.options(), SurveyListener.silent())
          .run();
    } catch (Cancelled e) {
      return;
    }
    throw new IllegalStateException("ended before micros=" + untilMicros);
  }
}
