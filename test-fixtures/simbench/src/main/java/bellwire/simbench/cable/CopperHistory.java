package bellwire.simbench.cable;

import bellwire.link.Tap;
import bellwire.simbench.AnalogSide.Seen;
import bellwire.simbench.FilterKernel;
import bellwire.simbench.circuit.Probe;
import bellwire.simbench.circuit.Solution;
import bellwire.simbench.circuit.WindowQuadrature;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The last seconds of the copper's voltages, piece by piece between two changes of the circuit, and
 * what a conversion sees of them.
 */
final class CopperHistory {
  private static final long HISTORY_NANOS = 2_000_000_000L;
  private static final int MAX_PIECES = 4096;
  private static final int PEAK_SAMPLES = 32;

  /** What the 3.3 V supply leaves above common, of which 0.8 V stand below it. */
  private static final double POSITIVE_SWING_VOLTS = 2.5;

  /**
   * @param chain the crosspoint's word meanwhile
   */
  record Piece(Solution solution, long chain) {}

  private final BoardCircuit board;
  private final SenseTaps taps;
  private final double swingVolts;
  private final List<Piece> pieces = new ArrayList<>();

  /**
   * @param swingVolts below common, beyond which the transimpedance stage is overloaded
   */
  CopperHistory(BoardCircuit board, SenseTaps taps, double swingVolts) {
    this.board = board;
    this.taps = taps;
    this.swingVolts = swingVolts;
  }

  Piece last() {
    return pieces.get(pieces.size() - 1);
  }

  /** Goes on otherwise; one that began at the same moment has not been. */
  void add(Solution solution, long chain) {
    long nanos = solution.startNanos();
    if (!pieces.isEmpty() && last().solution().startNanos() == nanos) {
      pieces.remove(pieces.size() - 1);
    }
    pieces.add(new Piece(solution, chain));
    int old = 0;
    while (old + 1 < pieces.size()
        && (pieces.get(old + 1).solution().startNanos() < nanos - HISTORY_NANOS
            || pieces.size() - old > MAX_PIECES)) {
      old++;
    }
    pieces.subList(0, old).clear();
  }

  /** Forgets what was before. */
  void restart(Solution solution, long chain) {
    pieces.clear();
    pieces.add(new Piece(solution, chain));
  }

  /** A conversion's view: {@link bellwire.simbench.AnalogSide#convert}. */
  Seen seen(Tap plus, Tap minus, FilterKernel filter, long startNanos) {
    long end = startNanos + filter.lengthNanos();
    int first = pieces.size() - 1;
    while (first > 0 && pieces.get(first).solution().startNanos() > startNanos) {
      first--;
    }
    if (pieces.get(first).solution().startNanos() > startNanos) {
      throw new IllegalArgumentException(
          "window before the history kept: startNanos=" + startNanos);
    }
    int last = first;
    while (last + 1 < pieces.size() && pieces.get(last + 1).solution().startNanos() < end) {
      last++;
    }
    List<Solution> solutions = new ArrayList<>();
    List<Probe> probes = new ArrayList<>();
    double peak = 0;
    Solution.@Nullable Bounds stage = null;
    boolean overloaded = false;
    for (int i = first; i <= last; i++) {
      Piece piece = pieces.get(i);
      Probe probe = taps.probe(plus, minus, piece.chain());
      solutions.add(piece.solution());
      probes.add(probe);
      long from = Math.max(startNanos, piece.solution().startNanos());
      long to = i < last ? pieces.get(i + 1).solution().startNanos() : end;
      Solution.Bounds seen = reached(piece.solution(), probe, from, to);
      if (plus.kind() == Tap.Kind.TRANSIMPEDANCE && board.stage(piece.chain())) {
        stage = seen;
        seen = limited(seen, piece.chain());
      }
      peak = Math.max(peak, Math.max(Math.abs(seen.low()), Math.abs(seen.high())));
      overloaded |= stageOverloaded(piece, from, to);
    }
    double volts =
        first == last
            ? solutions.get(0).filtered(probes.get(0), filter, startNanos)
            : new WindowQuadrature(filter, startNanos).integrate(solutions, probes);
    if (stage != null) {
      double feedback = board.feedbackOhms(pieces.get(last).chain());
      volts = board.diodes().limitedMean(volts, stage.low(), stage.high(), feedback);
    }
    return new Seen(volts, peak, overloaded);
  }

  private Solution.Bounds limited(Solution.Bounds bounds, long chain) {
    double feedback = board.feedbackOhms(chain);
    return new Solution.Bounds(
        board.diodes().limited(bounds.low(), feedback),
        board.diodes().limited(bounds.high(), feedback));
  }

  private boolean stageOverloaded(Piece piece, long from, long to) {
    if (!board.stage(piece.chain())) {
      return false;
    }
    Probe stage = taps.probe(Tap.TRANSIMPEDANCE, Tap.COMMON, piece.chain());
    Solution.Bounds bounds = limited(piece.solution().bounds(stage, from, to), piece.chain());
    if (bounds.low() >= -swingVolts && bounds.high() <= POSITIVE_SWING_VOLTS) {
      return false;
    }
    Solution.Bounds seen = limited(reached(piece.solution(), stage, from, to), piece.chain());
    return seen.low() < -swingVolts || seen.high() > POSITIVE_SWING_VOLTS;
  }

  /** Lowest and highest voltage: by its bounds where nothing decays, else by looking often. */
  private static Solution.Bounds reached(Solution solution, Probe probe, long from, long to) {
    if (solution.settled(from)) {
      return solution.bounds(probe, from, to);
    }
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = 0; i <= PEAK_SAMPLES; i++) {
      double share = (double) i / PEAK_SAMPLES;
      // Closer together at the beginning, where a decay is steep.
      double volts = solution.volts(probe, from + Math.round((to - from) * share * share));
      low = Math.min(low, volts);
      high = Math.max(high, volts);
    }
    return new Solution.Bounds(low, high);
  }
}
