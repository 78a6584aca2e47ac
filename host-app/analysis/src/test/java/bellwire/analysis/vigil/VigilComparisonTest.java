package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What is said of one conductor, of two vigils, and of vigils that can't be compared. */
class VigilComparisonTest {
  private static final long SECOND = 1_000_000;
  private static final long HOUR = 3_600 * SECOND;
  private static final int CABLE = 0b11111;

  private static Watch watch(VigilProgram program, int ports, int returned, double shortest) {
    return new Watch(program, ports, returned, shortest, 0, 24 * HOUR, List.of(), List.of());
  }

  private static VigilEvent opening(int port, long micros) {
    return new VigilEvent(
        port, micros - 1_000, micros, micros + 2_000, micros + 3_000, 1, false, false, false);
  }

  private static VigilSummary summary(VigilEvent... events) {
    return VigilSummary.ofOpenings(watch(VigilProgram.CONTINUITY, CABLE, 0, 27), List.of(events));
  }

  @Test
  void whyTwoVigilsCannotBeCompared() {
    Watch was = watch(VigilProgram.CONTINUITY, CABLE, 0, 27);
    Watch trend = watch(VigilProgram.TREND, CABLE, 0, 27);
    assertThat(VigilComparison.obstacles(was, watch(VigilProgram.TOUCH, CABLE, 1, 60)))
        .containsExactly("one watched for other things than the other");
    assertThat(VigilComparison.obstacles(trend, trend))
        .containsExactly("a trend has no events to count; look at each one's resistances");
    assertThat(VigilComparison.obstacles(was, watch(VigilProgram.CONTINUITY, 0b1111, 0, 27)))
        .containsExactly("they watched other conductors");
    assertThat(VigilComparison.obstacles(was, watch(VigilProgram.CONTINUITY, CABLE, 1, 27)))
        .containsExactly("the current came back through another conductor");
    for (double shortest : new double[] {24.2, 29.8, Double.NaN}) {
      assertThat(VigilComparison.obstacles(was, watch(VigilProgram.CONTINUITY, CABLE, 0, shortest)))
          .as("shortest=" + shortest)
          .containsExactly("the shortest opening that could be seen is another");
    }
    // A tenth is within what a length is known to; two of neither known length may be alike.
    for (double shortest : new double[] {24.4, 29.6}) {
      assertThat(VigilComparison.obstacles(was, watch(VigilProgram.CONTINUITY, CABLE, 0, shortest)))
          .isEmpty();
    }
    Watch unknown = watch(VigilProgram.CONTINUITY, CABLE, 0, Double.NaN);
    assertThat(VigilComparison.obstacles(unknown, unknown)).isEmpty();
    Watch touch = watch(VigilProgram.TOUCH, CABLE, 0, 27);
    assertThat(VigilComparison.obstacles(touch, watch(VigilProgram.TOUCH, CABLE, 1, 60))).isEmpty();
    VigilSummary other =
        VigilSummary.ofOpenings(watch(VigilProgram.CONTINUITY, 0b1111, 0, 27), List.of());
    assertThatThrownBy(() -> VigilComparison.of(summary(), other))
        .hasMessageContaining("why=[they watched other conductors]");
  }

  /** A line for each to whom something happened in one of the two, those of before first. */
  @Test
  void eachConductorToWhomSomethingHappenedHasALine() {
    VigilSummary before = summary(opening(1, HOUR), opening(1, 9 * HOUR), opening(2, 3 * HOUR));
    VigilSummary after = summary(opening(2, HOUR), opening(3, 2 * HOUR), opening(3, 7 * HOUR));
    VigilComparison comparison = VigilComparison.of(before, after);
    List<String> lines = new ArrayList<>();
    for (VigilComparison.Line line : comparison.conductors()) {
      lines.add(
          line.subject().orElseThrow().ports()
              + " "
              + line.before().events()
              + " "
              + line.after().events());
      assertThat(line.bursts()).isFalse();
      assertThat(line.before().seconds()).isEqualTo(86_400);
      assertThat(line.after().seconds()).isEqualTo(86_400);
    }
    assertThat(lines).containsExactly("2 2 0", "4 1 1", "8 0 2");
    VigilComparison.Line whole = comparison.whole();
    assertThat(whole.subject()).isEmpty();
    assertThat(whole.before().events()).isEqualTo(3);
    assertThat(whole.after().events()).isEqualTo(3);
    assertThat(whole.fewer()).isFalse();
    assertThat(whole.more()).isFalse();
    // Two before and none after, as long: one in four; none before: no time is enough.
    assertThat(comparison.conductors().get(0).chanceOfSoFew()).isCloseTo(0.25, within(1e-12));
    assertThat(comparison.conductors().get(2).secondsToBeSure()).isInfinite();
  }

  /** Of five events at equal times all after has 1/32: fewer; of four 1/16: not surely. */
  @Test
  void fewerAndMoreAreSaidAtFivePercent() {
    PoissonRate none = new PoissonRate(0, 3_600);
    for (int events : new int[] {4, 5, 6}) {
      PoissonRate some = new PoissonRate(events, 3_600);
      VigilComparison.Line fewer =
          VigilComparison.Line.of(java.util.Optional.empty(), some, none, false);
      assertThat(fewer.fewer()).as("events=" + events).isEqualTo(events >= 5);
      assertThat(fewer.more()).isFalse();
      VigilComparison.Line more =
          VigilComparison.Line.of(java.util.Optional.empty(), none, some, false);
      assertThat(more.fewer()).isFalse();
      // Two-sided: a fortieth, 1/64 of six.
      assertThat(more.more()).as("events=" + events).isEqualTo(events >= 6);
    }
  }

  /** Eight bursts of five: a rate's chances hold for what comes independently. */
  @Test
  void whereEventsCameInBurstsBurstsAreCounted() {
    List<VigilEvent> events = new ArrayList<>();
    for (int burst = 0; burst < 8; burst++) {
      for (int i = 0; i < 5; i++) {
        events.add(
            opening(2, 3 * HOUR * burst + (burst * burst % 5 + 1) * 600 * SECOND + i * 300_000));
      }
    }
    VigilSummary bursts = summary(events.toArray(VigilEvent[]::new));
    VigilSummary quiet = summary();
    assertThat(bursts.conductors().get(0).count()).isEqualTo(40);
    assertThat(bursts.conductors().get(0).independent().events()).isEqualTo(8);
    VigilComparison repaired = VigilComparison.of(bursts, quiet);
    assertThat(repaired.whole().bursts()).isTrue();
    assertThat(repaired.whole().before().events()).isEqualTo(8);
    assertThat(repaired.whole().after().events()).isZero();
    assertThat(repaired.conductors()).hasSize(1);
    assertThat(repaired.conductors().get(0).before().events()).isEqualTo(8);
    assertThat(repaired.conductors().get(0).after().seconds()).isEqualTo(86_400);
    // (1/2)^8 is the chance that none of eight comes in the second of two days.
    assertThat(repaired.whole().chanceOfSoFew()).isCloseTo(Math.pow(0.5, 8), within(1e-12));
    VigilComparison spoilt = VigilComparison.of(quiet, bursts);
    assertThat(spoilt.whole().bursts()).isTrue();
    assertThat(spoilt.conductors().get(0).after().events()).isEqualTo(8);
    assertThat(spoilt.conductors().get(0).before().events()).isZero();
    VigilComparison worse = VigilComparison.of(summary(opening(2, HOUR)), bursts);
    assertThat(worse.conductors()).hasSize(1);
    assertThat(worse.conductors().get(0).bursts()).isTrue();
    assertThat(worse.conductors().get(0).after().events()).isEqualTo(8);
    VigilComparison same = VigilComparison.of(bursts, bursts);
    assertThat(same.conductors()).hasSize(1);
    assertThat(same.conductors().get(0).after().events()).isEqualTo(8);
    assertThat(same.conductors().get(0).bursts()).isTrue();
  }

  /** 3 ms surely, cut; less than a tick, by its latch; 0.1 to 0.5 s. In one second. */
  @Test
  void whatIsToldOfAConductorsEvents() {
    List<VigilEvent> events =
        List.of(
            new VigilEvent(2, 1_000, 2_000, 5_000, 6_000, 1, false, false, false),
            new VigilEvent(2, 10_000, 11_000, 11_000, 11_000, 1, true, false, false),
            new VigilEvent(2, 20_000, 20_000, 320_000, 320_000, 1, false, true, false),
            new VigilEvent(2, 400_000, 500_000, 600_000, 900_000, 1, false, false, true));
    Subject who = new Subject(Happening.OPENING, 0b100, 0);
    Exposure second = Exposure.without(0, SECOND, List.of());
    ConductorSummary told = ConductorSummary.of(who, events, second, List.of(500_000L), 3, 0.5, 2);
    assertThat(told.subject()).isEqualTo(who);
    assertThat(told.count()).isEqualTo(4);
    assertThat(told.brief()).isEqualTo(1);
    assertThat(told.cut()).isEqualTo(2);
    assertThat(told.classes())
        .isEqualTo(
            Map.of(
                InterruptionClass.TO_30_MS, 1L,
                InterruptionClass.TO_300_MS, 1L,
                InterruptionClass.TO_1_MINUTE, 1L));
    assertThat(told.longestLeastMicros()).isEqualTo(300_000);
    assertThat(told.longestMostMicros()).isEqualTo(500_000);
    assertThat(told.totalLeastMicros()).isEqualTo(3_000 + 300_000 + 100_000);
    assertThat(told.totalMostMicros()).isEqualTo(5_000 + 1_000 + 300_000 + 500_000);
    assertThat(told.firstMicros()).isEqualTo(2_000);
    assertThat(told.lastMicros()).isEqualTo(600_000);
    assertThat(told.rate()).isEqualTo(new PoissonRate(4, 1));
    assertThat(told.independent()).isEqualTo(new PoissonRate(4, 1));
    assertThat(told.chanceOfSeeing()).isEqualTo(0.5);
    assertThat(told.assumedMicros()).isEqualTo(2);
    assertThat(told.rhythm().manner()).isEqualTo(Manner.TOO_FEW);
    assertThat(told.marks().near()).isEqualTo(1);
    ConductorSummary nothing = ConductorSummary.of(who, List.of(), second, List.of(), 3, 1, 0);
    assertThat(nothing.firstMicros()).isEqualTo(-1);
    assertThat(nothing.lastMicros()).isEqualTo(-1);
    assertThat(nothing.classes()).isEmpty();
  }
}
