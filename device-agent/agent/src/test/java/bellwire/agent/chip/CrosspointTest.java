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
  void theNextWordTellsWhetherThisOneArrived() throws ChipTrouble {
    bus.expect("01 23 45 67 89 AB CD EF", "FF FF FF FF FF FF FF FF"); // whatever was there before
    bus.expect("00 00 00 00 00 00 00 01", "01 23 45 67 89 AB CD EF");
    bus.expect("00 00 00 00 00 00 00 00", "00 00 00 00 00 00 00 03");
    crosspoint.latch(0x0123456789ABCDEFL);
    crosspoint.latch(1);
    assertThatThrownBy(() -> crosspoint.latch(0))
        .isInstanceOf(ChipTrouble.class)
        .hasMessageContaining("told=0000000000000001 found=0000000000000003");
  }

  @Test
  void afterTroubleOrASupplyThatWasCutNothingIsExpected() throws ChipTrouble {
    bus.expect("00 00 00 00 00 00 00 01", "00 00 00 00 00 00 00 00");
    bus.expectFailing("00 00 00 00 00 00 00 02", -1);
    bus.expect("00 00 00 00 00 00 00 04", "00 00 00 00 00 00 00 01");
    bus.expect("00 00 00 00 00 00 00 08", "00 00 00 00 00 00 00 00");
    crosspoint.latch(1);
    assertThatThrownBy(() -> crosspoint.latch(2)).hasMessageContaining("moved=-1");
    crosspoint.latch(4);
    crosspoint.forget();
    crosspoint.latch(8);
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
