package bellwire.hardware.notes;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.notes.PowerBudget.State;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class PowerBudgetTest {
  /** A supply is not used to its end: common practice. */
  private static final double MARGIN = 0.8;

  private final PowerBudget budget =
      new PowerBudget(Netlist.revisionA(), BoardDescription.revisionA());

  @ParameterizedTest
  @EnumSource(State.class)
  void everySupplyKeepsItsMargin(State state) {
    for (String supply : new String[] {"VP", "VCP", "VCN"}) {
      assertThat(budget.amps(supply, state))
          .as(supply)
          .isPositive()
          .isLessThan(MARGIN * budget.capacityAmps(supply));
    }
    assertThat(budget.fromPi(state)).isLessThan(MARGIN * budget.capacityAmps("PI_5V"));
  }

  /** The regulator and its resettable fuse bear what hangs behind them. */
  @Test
  void whatStandsInSeriesBearsTheCableSide() {
    double most = budget.amps("VP", State.ALL);
    assertThat(most).isLessThan(MARGIN * budget.rating("F102", "holding-amps"));
    assertThat(most).isLessThan(MARGIN * budget.rating("U102", "amps"));
  }

  /**
   * By hand: (3.366 − 1.2 − 0.1) V / 330 ohm, seventeen times; 10.5 V less 1.2 V / 1800 ohm, 16.
   */
  @Test
  void theDiodesTakeWhatTheirResistorsLeave() {
    assertThat(amps("VP", "relays' diodes")).isCloseTo(17 * 6.2606e-3, within(1e-5));
    assertThat(amps("VCP", "leads' diodes")).isCloseTo(16 * 5.1667e-3, within(1e-5));
    assertThat(amps("VP", "chips: interlock-port")).isCloseTo(17 * 1.02e-3, within(1e-6));
  }

  private double amps(String supply, String what) {
    return budget.draws().stream()
        .filter(draw -> draw.supply().equals(supply) && draw.what().equals(what))
        .mapToDouble(PowerBudget.Draw::amps)
        .sum();
  }
}
