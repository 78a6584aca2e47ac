package bellwire.simbench.spice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.board.BoardDescription;
import bellwire.simbench.CallSide;
import bellwire.simbench.VirtualClock;
import bellwire.simbench.chip.CallInputs;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The conducting share of a lead: a sine into the burden and two comparators in ngspice, the
 * simulated inputs, and docs/theory.md (50) agree.
 */
class NgspiceCallInputTest {
  private static final BoardDescription BOARD = BoardDescription.revisionA();

  @TempDir Path directory;

  @ParameterizedTest
  @CsvSource({"7, 60", "10, 50", "18, 60", "20, 60", "24, 60", "24, 50", "28, 60", "30, 47"})
  void theShareOfASine(double volts, double hertz) throws Exception {
    Ngspice.require();
    double threshold = BOARD.nominal("call-threshold-volts");
    double formula = 1 - 2 / Math.PI * Math.asin(threshold / (volts * Math.sqrt(2)));
    assertThat(inNgspice(volts, hertz)).as("ngspice").isCloseTo(formula, within(0.002));
    assertThat(onTheBench(volts, hertz)).as("bench").isCloseTo(formula, within(0.001));
  }

  /** Two switches that close beyond the threshold of either sign pull the output down. */
  private double inNgspice(double volts, double hertz) throws Exception {
    String netlist =
        String.format(
            Locale.ROOT,
            """
            a lead of the call-sense connector
            V1 src 0 SIN(0 %.6f %.3f)
            R1 src x 0.5
            RB x 0 %.1f
            VP high 0 1
            RP high out 10k
            S1 out 0 x 0 above
            S2 out 0 0 x above
            .model above SW(VT=%.3f VH=0 RON=1 ROFF=1e9)
            .tran 5u %.6f 0 5u
            .save v(out)
            .end
            """,
            volts * Math.sqrt(2),
            hertz,
            BOARD.nominal("call-burden-ohms"),
            BOARD.nominal("call-threshold-volts"),
            4 / hertz);
    Ngspice.Plot plot = Ngspice.run(directory, netlist);
    double[] time = plot.real("time");
    double[] out = plot.real("out");
    double above = 0;
    for (int i = 1; i < time.length; i++) {
      above += out[i] < 0.5 ? time[i] - time[i - 1] : 0;
    }
    return above / time[time.length - 1];
  }

  private static double onTheBench(double volts, double hertz) {
    VirtualClock clock = new VirtualClock();
    CallSide side =
        (lead, wetting, load, nanos) ->
            lead == 4 ? volts * Math.sqrt(2) * Math.sin(2e-9 * Math.PI * hertz * nanos) : 0;
    CallInputs inputs = new CallInputs(BOARD, side, clock, () -> Long.MIN_VALUE);
    long stepNanos = 5000;
    long steps = Math.round(4e9 / hertz / stepNanos);
    clock.advanceTo(1_000_000);
    int above = 0;
    for (long i = 0; i < steps; i++) {
      clock.advanceTo(clock.nanos() + stepNanos);
      above += inputs.word(false, 0) >>> 4 & 1;
    }
    return above / (double) steps;
  }

  /** With the wetting on the threshold is the lower one. */
  @Test
  void theWettingHasItsOwnThreshold() {
    VirtualClock clock = new VirtualClock();
    CallSide side = (lead, wetting, load, nanos) -> wetting ? 0.5 * lead : 4;
    CallInputs inputs = new CallInputs(BOARD, side, clock, () -> Long.MIN_VALUE);
    assertThat(inputs.word(false, 0)).isZero();
    assertThat(inputs.word(true, 0)).isEqualTo(0xFFC0); // from 3 V up
  }
}
