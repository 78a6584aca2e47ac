package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Leakages between clusters, before a board that answers exactly. */
class PairPhaseTest {
  private final List<List<Probe>> rounds = new ArrayList<>();
  private IdealBoard board = new IdealBoard(0, new double[Ports.COUNT], net -> {});

  private PairPhase phase(List<List<Integer>> clusters, Consumer<Network> copper) {
    board = new IdealBoard(0, new double[Ports.COUNT], copper);
    int present = 0;
    for (List<Integer> cluster : clusters) {
      present |= Ports.mask(cluster);
    }
    RestPhase rest = new RestPhase(IdealBoard.MODEL, present);
    board.run(rest);
    return new PairPhase(IdealBoard.MODEL, clusters, rest);
  }

  private PairPhase run(List<List<Integer>> clusters, Consumer<Network> copper) {
    PairPhase phase = phase(clusters, copper);
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      rounds.add(probes);
      phase.accept(board.measure(probes));
    }
    return phase;
  }

  private static void leaks(PairPhase phase, int a, int b, double ohms) {
    assertThat(phase.measured(a, b) && phase.measured(b, a)).isTrue();
    assertThat(phase.between(b, a)).isEqualTo(phase.between(a, b));
    assertThat(phase.between(a, b).siemens()).isCloseTo(1 / ohms, within(3e-4 / ohms));
    assertThat(phase.between(a, b).detected()).isTrue();
  }

  private static List<List<Integer>> singles(int n) {
    return IntStream.range(0, n).mapToObj(List::of).toList();
  }

  /** P1 and P2 touch: 50 kohm and 1 Mohm to P3 are side by side. */
  @Test
  void aClusterIsReadAsOne() {
    List<List<Integer>> clusters = List.of(List.of(0, 1), List.of(2), List.of(3), List.of(16));
    PairPhase phase =
        run(
            clusters,
            net ->
                net.join(0, 1, 0.1)
                    .join(0, 2, 1 / 50e3)
                    .join(1, 2, 1e-6)
                    .join(2, 3, 1 / 20e3)
                    .join(1, 16, 1 / 5e6));
    leaks(phase, 0, 1, 1 / (1 / 50e3 + 1e-6));
    leaks(phase, 1, 2, 20e3);
    leaks(phase, 0, 3, 5e6);
    // the cluster against the rest first, the others floating not at all
    Probe first = rounds.get(0).get(0);
    assertThat(first.drive()).isEqualTo(0b11);
    assertThat(first.returned()).isEqualTo(Ports.mask(List.of(2, 3, 16)));
    assertThat(first.guard()).isEqualTo(Ports.ALL & ~Ports.mask(List.of(0, 1, 2, 3, 16)));
    assertThat(first.end()).isEqualTo(End.HIGH);
    assertThat(rounds.get(0).get(1).look()).isEqualTo(Look.terminal(0));
  }

  /** Each pair drives one cluster, returns the other and holds all the rest at common. */
  @Test
  void aPairIsReadWithAllOthersHeld() {
    PairPhase phase = run(singles(4), net -> net.join(0, 2, 1 / 50e3));
    leaks(phase, 0, 2, 50e3);
    assertThat(rounds).hasSize(1);
    List<Probe> only = rounds.get(0);
    assertThat(only).hasSize(3);
    assertThat(only.get(0).drive()).isEqualTo(Ports.bit(0));
    assertThat(only.get(0).returned()).isEqualTo(Ports.bit(2));
    assertThat(only.get(0).guard()).isEqualTo(Ports.ALL & ~0b101);
    assertThat(only.get(0).repeats()).isEqualTo(3);
    assertThat(only.get(1).look()).isEqualTo(Look.pair(0, 2));
    assertThat(only.get(2).excite()).isFalse();
    assertThat(phase.measured(0, 1)).isFalse();
    assertThat(phase.measured(1, 3)).isFalse();
  }

  /** What one shows against all the rest bounds each of its pairs: conductance is not negative. */
  @Test
  void aPairThatNeedNotBeReadIsBounded() {
    PairPhase phase = run(singles(4), net -> net.join(0, 2, 1 / 50e3));
    Leak bound = phase.between(1, 3);
    assertThat(bound.siemens()).isZero();
    assertThat(bound.aboveOhms()).isBetween(1e9, 1e12);
    // of the two the one that shows less
    assertThat(phase.between(0, 1).upperSiemens()).isLessThan(1e-9);
    assertThat(phase.between(1, 0)).isEqualTo(phase.between(0, 1));
  }

  /** With nothing excited the returned ports and the range are all that matters. */
  @Test
  void aReadingWithoutExcitationServesAllThatReturnAlike() {
    run(singles(4), net -> net.join(0, 3, 1 / 1e6).join(1, 3, 1 / 1e6).join(2, 3, 1 / 1e6));
    // each leaks to P4 alone, but any two might leak to each other: six pairs
    List<Probe> first = rounds.get(0);
    List<Probe> silent = first.stream().filter(p -> !p.excite()).toList();
    assertThat(first.stream().filter(Probe::excite)).hasSize(12);
    assertThat(silent).extracting(p -> Ports.list(p.returned()).get(0)).containsExactly(1, 2, 3);
  }

  /** 9 that all leak are 36 pairs, 8 are 28. */
  @Test
  void manyPairsAreReadOnceEach() {
    run(singles(8), all(8));
    assertThat(rounds.get(0)).allMatch(p -> p.repeats() == 3 || p.pace() != Probe.Pace.PRECISE);
    rounds.clear();
    PairPhase phase = run(singles(9), all(9));
    assertThat(rounds.get(0)).allMatch(p -> p.repeats() == 1);
    leaks(phase, 3, 7, 1e6);
  }

  private static Consumer<Network> all(int n) {
    return net -> {
      for (int a = 0; a < n; a++) {
        for (int b = a + 1; b < n; b++) {
          net.join(a, b, 1e-6);
        }
      }
    };
  }

  /** Hum that overloads: the next range, and the next, and then nothing is said. */
  @Test
  void whatOverloadsIsReadInTheNextRange() {
    PairPhase phase = phase(singles(3), net -> net.join(0, 2, 1 / 50e6));
    List<End> ends = new ArrayList<>();
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      ends.add(probes.get(0).end());
      phase.accept(
          board.measure(probes).stream()
              .map(r -> new Reading(r.probe(), r.volts(), Double.NaN, true))
              .toList());
    }
    assertThat(ends).containsExactly(End.HIGH, End.MID, End.LOW);
    assertThat(phase.measured(0, 2)).isFalse();
    assertThat(phase.between(0, 2).siemens()).isZero();
  }

  /** The low range lifts the return bus: what it shows to be small is read again in the middle. */
  @Test
  void whatIsSmallInTheLowRangeIsReadInTheMiddle() {
    PairPhase phase = phase(singles(3), net -> net.join(0, 2, 1 / 100e3));
    List<End> ends = new ArrayList<>();
    boolean spoilt = true;
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      ends.add(probes.get(0).end());
      List<Reading> readings = new ArrayList<>(board.measure(probes));
      if (spoilt) {
        Reading r = readings.get(0);
        readings.set(0, new Reading(r.probe(), r.volts(), r.scatterVolts(), true));
      }
      spoilt = false;
      phase.accept(readings);
    }
    assertThat(ends).containsExactly(End.MID, End.LOW, End.MID);
    leaks(phase, 0, 2, 100e3);
  }

  /** A single cluster has nothing to leak to. */
  @Test
  void oneClusterAloneIsNotRead() {
    PairPhase phase = run(List.of(List.of(0, 1)), net -> net.join(0, 1, 0.1));
    assertThat(rounds).isEmpty();
    assertThat(phase.measured(0, 0)).isFalse();
  }
}
