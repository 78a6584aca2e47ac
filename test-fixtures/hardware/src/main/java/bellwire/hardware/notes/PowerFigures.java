package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import bellwire.hardware.notes.PowerBudget.State;
import java.util.Arrays;
import java.util.function.ToDoubleFunction;

/** Supplies, heat, the call sense's burdens and the bench supply. */
final class PowerFigures {
  private static final int LEADS = 16;
  private static final double BENCH_VOLTS = 24;

  /** Of a control by itself: common practice, no source. */
  private static final double CONTROL_AMPS = 0.2;

  /** Class 2 without inherent limiting, up to 30 V: 100 VA; from memory. */
  private static final double CLASS_2_VOLT_AMPERES = 100;

  private PowerFigures() {}

  static void add(Figures figures, PowerBudget budget) {
    double most = most(state -> budget.amps("VP", state));
    figures.add("power-vp-most", most, 1e-3, "mA", 0);
    figures.add("power-vp-gives", budget.capacityAmps("VP"), 1e-3, "mA", 0);
    figures.add("power-vp-least", budget.amps("VP", State.REST), 1e-3, "mA", 0);
    double call = most(state -> Math.max(budget.amps("VCP", state), budget.amps("VCN", state)));
    figures.add("power-vcp-most", call, 1e-3, "mA", 0);
    figures.add("power-vcp-gives", budget.capacityAmps("VCP"), 1e-3, "mA", 0);
    figures.add("power-vcp-least", budget.amps("VCP", State.REST), 1e-3, "mA", 0);
    figures.add("power-vcn-least", budget.amps("VCN", State.REST), 1e-3, "mA", 0);
    figures.add("power-pi-rest", budget.fromPi(State.REST), 1e-3, "mA", 0);
    double pi = most(budget::fromPi);
    figures.add("power-pi-most", pi, 1e-3, "mA", 0);
    figures.add("power-pi-fuse", budget.capacityAmps("PI_5V"), 1, "A", 1);
    figures.add("power-3v3", budget.amps("PI_3V3", State.ALL), 1e-3, "mA", 0);
    figures.add("heat-regulator", most * (5 - figures.least("supply-volts")), 1, "W", 2);
    double lost = pi * 5 - 5 * most(s -> budget.amps("VP", s));
    lost -= 5 * most(s -> budget.amps("VCP", s) + budget.amps("VCN", s));
    figures.add("heat-converters", lost, 1, "W", 1);
    calls(figures, figures.board());
  }

  private static double most(ToDoubleFunction<State> of) {
    return Arrays.stream(State.values()).mapToDouble(of).max().orElseThrow();
  }

  private static void calls(Figures figures, BoardDescription board) {
    double volts = board.limit("call-volts");
    double load = volts * volts / figures.nominal("call-load-ohms");
    double loads = board.limit("call-loads-most");
    double excitation = figures.most("excitation-volts");
    figures.add("heat-load", load, 1, "W", 2);
    figures.add("heat-loads", loads * load, 1, "W", 1);
    figures.add("load-rating", board.limit("call-load-watts"), 1, "W", 0);
    double limiter = figures.part("R203");
    double amps = excitation / figures.least("limiter-ohms");
    figures.add("heat-limiter", amps * amps * limiter, 1e-3, "mW", 1);
    figures.add("burden-heat", volts * volts / figures.nominal("call-burden-ohms"), 1, "W", 2);
    double benchLoads = loads * BENCH_VOLTS / figures.nominal("call-load-ohms");
    double burdens = LEADS * BENCH_VOLTS / figures.nominal("call-burden-ohms");
    figures.add("bench-loads", benchLoads, 1, "A", 2);
    figures.add("bench-burdens", burdens, 1, "A", 2);
    figures.add("bench-sum", benchLoads + burdens + CONTROL_AMPS, 1, "A", 2);
    figures.add("bench-class2", CLASS_2_VOLT_AMPERES / volts, 1, "A", 1);
    figures.add("bench-fuse", figures.rating("F1301", "amps"), 1, "A", 0);
  }
}
