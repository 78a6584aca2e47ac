package bellwire.agent.chip;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

/** The order of chips and bits is the board description's: bits 63..56 first. */
class CrosspointTest {
  private final ScriptedSpi bus = new ScriptedSpi();
  private final Crosspoint crosspoint = new Crosspoint(bus.spi());

  @Test
  void theChipFurthestAlongIsShiftedFirst() throws ChipTrouble {
    bus.expect("01 23 45 67 89 AB CD EF", "00 00 00 00 00 00 00 00");
    crosspoint.latch(0x0123456789ABCDEFL);
    bus.done();
  }

  @Test
  void aFailedTransferIsTrouble() {
    bus.expectFailing("00 00 00 00 00 00 00 01", -1);
    assertThatThrownBy(() -> crosspoint.latch(1))
        .isInstanceOf(ChipTrouble.class)
        .hasMessageContaining("moved=-1 of=8");
  }
}
