package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.vigil.ShortestOpening;
import bellwire.analysis.vigil.TouchChance;
import bellwire.app.job.VigilEvent;
import bellwire.app.vigil.SimulatedVigil.Outcome;
import bellwire.board.BoardDescription;
import bellwire.link.Message.KeepVigil.Kind;
import bellwire.simbench.cable.Occurrence;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Hours of a vigil of sixteen conductors against what was really there. A whole day by {@code
 * -Dbellwire.hours=24}, another one by {@code -Dbellwire.seed=2}.
 */
class VigilDayTest {
  private static final double HOURS =
      Double.parseDouble(System.getProperty("bellwire.hours", "0.1"));
  private static final long SEED = Long.getLong("bellwire.seed", 1);
  private static final int CONDUCTORS = 16;
  private static final int ALL = (1 << CONDUCTORS) - 1;
  private static final double EVENTS = 400;
  private static final long TICK = 1000;
  private static final BoardDescription BOARD = BoardDescription.revisionA();

  /** By which the slowest of the board's tolerances may be slower than nominal. */
  private static final double SLOWEST = 1.10;

  /** Of a conductor of 25 m that opens at its far end: the bench's default and its spread. */
  private static final double FARADS = 25 * 66e-12 * 1.05 + 20e-12;

  @TempDir private Path directory;

  /** Openings of one port without a reading between them. */
  private record Stretch(int port, long startMicros, long endMicros, long longestMicros) {}

  @Test
  void everyOpeningIsFoundWithItsTimeAndNoOther() throws Exception {
    StringBuilder bench = new StringBuilder(SimulatedVigil.cable(CONDUCTORS, "tie", SEED));
    for (int p = 1; p <= CONDUCTORS; p++) {
      bench.append(
          String.format(
              Locale.ROOT,
              "  - {opening: P%d, at: %.2f, poisson: {per-hour: %.4f}, lasting: 5 us .. 3 s}%n",
              p,
              (p - 1) / 15.0,
              EVENTS / CONDUCTORS / HOURS));
    }
    Outcome outcome = keep(Kind.CONTINUITY, bench.toString());
    double leastMicros =
        SLOWEST * ShortestOpening.micros(BOARD.nominal("event-wetting-ohms"), FARADS)
            + BOARD.nominal("event-latch-micros")
            + BOARD.value("event-latch-micros").tolerance();
    List<Stretch> truth = stretches(outcome);
    int[] found = new int[4];
    double worst = 0;
    for (Stretch each : truth) {
      List<VigilEvent> of = overlapping(outcome.events(), each);
      boolean must = each.longestMicros() > leastMicros;
      assertThat(of.isEmpty() && must).as("not seen: %s", each).isFalse();
      found[of.isEmpty() ? 0 : of.stream().allMatch(VigilEvent::latched) ? 1 : 2]++;
      if (each.longestMicros() >= 2 * TICK) {
        found[3]++;
        long first = of.stream().mapToLong(VigilEvent::beforeMicros).min().orElseThrow();
        long shown = of.stream().mapToLong(VigilEvent::firstMicros).min().orElseThrow();
        double begin = (first + shown) / 2.0 - each.startMicros();
        double end =
            of.stream()
                    .mapToDouble(e -> (e.lastMicros() + e.afterMicros()) / 2.0)
                    .max()
                    .orElseThrow()
                - each.endMicros();
        worst = Math.max(worst, Math.max(Math.abs(begin), Math.abs(end)));
      }
    }
    long invented =
        outcome.events().stream()
            .filter(e -> truth.stream().noneMatch(t -> overlaps(e, t)))
            .count();
    System.out.printf(
        Locale.ROOT,
        "continuity: hours=%.1f seed=%d took=%.1f s ended=%s; openings by port and reading=%d: read %d (of 2 ms"
            + " and more %d, worst time off %.3f ms), only latched %d, below the shortest of %.1f us"
            + " unseen %d; events=%d invented=%d%n",
        HOURS,
        SEED,
        outcome.seconds(),
        outcome.ending(),
        truth.size(),
        found[2],
        found[3],
        worst / 1000,
        found[1],
        leastMicros,
        found[0],
        outcome.events().size(),
        invented);
    assertThat(worst).isLessThan(TICK);
    assertThat(invented).isZero();
    assertThat(found[3]).isGreaterThan(50);
    assertThat(found[1]).isGreaterThan(10);
    assertThat(outcome.ending()).isEqualTo("its time was over");
  }

  @Test
  void touchesAreSeenAsOftenAsTheirLengthLets() throws Exception {
    StringBuilder bench = new StringBuilder(SimulatedVigil.cable(CONDUCTORS, "open", SEED));
    for (int p = 1; p <= CONDUCTORS; p++) {
      String other = p == CONDUCTORS ? "M" : "P" + (1 + p * 7 % CONDUCTORS);
      bench.append(
          String.format(
              Locale.ROOT,
              "  - {touch: [P%d, %s], at: %.2f, poisson: {per-hour: %.4f}, lasting: 5 us .. 50 ms}%n",
              p,
              other.equals("P" + p) ? "P1" : other,
              (p - 1) / 15.0,
              2 * EVENTS / CONDUCTORS / HOURS));
    }
    Outcome outcome = keep(Kind.TOUCH, bench.toString());
    TouchChance chance =
        new TouchChance(
            CONDUCTORS + 1,
            TICK,
            BOARD.nominal("event-blind-micros"),
            BOARD.nominal("event-latch-micros"));
    long[] edges = {0, 20, 100, 300, 1000, 3000, 10_000, Long.MAX_VALUE};
    for (int bin = 0; bin + 1 < edges.length; bin++) {
      share(outcome, chance, edges[bin], edges[bin + 1]);
    }
    long invented =
        outcome.events().stream()
            .filter(e -> outcome.truth().stream().noneMatch(t -> tells(e, t, outcome)))
            .count();
    System.out.printf(
        Locale.ROOT,
        "touch: hours=%.1f seed=%d took=%.1f s; touches=%d events=%d invented=%d%n",
        HOURS,
        SEED,
        outcome.seconds(),
        outcome.truth().size(),
        outcome.events().size(),
        invented);
    assertThat(invented).isZero();
  }

  /** What was seen of the touches of a length, within four standard deviations of its chance. */
  private static void share(Outcome outcome, TouchChance chance, long fromMicros, long toMicros) {
    double expected = 0;
    double variance = 0;
    int touches = 0;
    int seen = 0;
    for (Occurrence each : outcome.truth()) {
      long micros = each.nanos() / 1000;
      if (micros < fromMicros || micros >= toMicros) {
        continue;
      }
      int a = each.portA() + 1;
      int b = each.portB() == CONDUCTORS ? 0 : each.portB() + 1;
      double p = chance.ofPair(a, b, each.nanos() / 1000.0);
      expected += p;
      variance += p * (1 - p);
      touches++;
      seen += outcome.events().stream().anyMatch(e -> tells(e, each, outcome)) ? 1 : 0;
    }
    System.out.printf(
        Locale.ROOT,
        "touch of %d us and more: %d, seen %d, expected %.1f +- %.1f%n",
        fromMicros,
        touches,
        seen,
        expected,
        Math.sqrt(variance));
    assertThat((double) seen)
        .as("touches from %d us", fromMicros)
        .isBetween(expected - 4 * Math.sqrt(variance) - 1, expected + 4 * Math.sqrt(variance) + 1);
  }

  private static boolean tells(VigilEvent e, Occurrence t, Outcome outcome) {
    int pair = 1 << t.portA() | 1 << t.portB();
    long start = t.startNanos() / 1000 + outcome.offsetMicros();
    long end = t.endNanos() / 1000 + outcome.offsetMicros();
    boolean one = (pair >>> e.port() & 1) != 0 && (e.others() & pair & ~(1 << e.port())) != 0;
    return one && e.beforeMicros() <= end + TICK && e.afterMicros() + TICK >= start;
  }

  private Outcome keep(Kind kind, String bench) throws Exception {
    return SimulatedVigil.keep(
        kind, bench, ALL, HOURS, directory.resolve("day.bellwire"), (run, micros) -> {});
  }

  /** What the ports show: an opening of the returned conductor shows at all the others. */
  private static List<Stretch> stretches(Outcome outcome) {
    List<Stretch> all = new ArrayList<>();
    for (int port = 1; port < CONDUCTORS; port++) {
      List<Occurrence> of = new ArrayList<>();
      for (Occurrence each : outcome.truth()) {
        if (each.portA() == port || each.portA() == 0) {
          of.add(each);
        }
      }
      of.sort(Comparator.comparingLong(Occurrence::startNanos));
      Stretch open = null;
      for (Occurrence each : of) {
        long start = each.startNanos() / 1000 + outcome.offsetMicros();
        long end = each.endNanos() / 1000 + outcome.offsetMicros();
        if (open != null && start - open.endMicros() <= 2 * TICK) {
          open =
              new Stretch(
                  port,
                  open.startMicros(),
                  Math.max(end, open.endMicros()),
                  Math.max(open.longestMicros(), end - start));
        } else {
          if (open != null) {
            all.add(open);
          }
          open = new Stretch(port, start, end, end - start);
        }
      }
      if (open != null) {
        all.add(open);
      }
    }
    return all;
  }

  private static List<VigilEvent> overlapping(List<VigilEvent> events, Stretch of) {
    return events.stream().filter(e -> overlaps(e, of)).toList();
  }

  private static boolean overlaps(VigilEvent e, Stretch of) {
    return e.port() == of.port()
        && e.beforeMicros() <= of.endMicros() + TICK
        && e.afterMicros() + TICK >= of.startMicros();
  }
}
