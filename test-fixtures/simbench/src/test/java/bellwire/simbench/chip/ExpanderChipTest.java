package bellwire.simbench.chip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The expander in bytes; constants restated from the MCP23S17 data sheet DS20001952. */
class ExpanderChipTest {
  private final List<Integer> driven = new ArrayList<>();
  private final ExpanderChip zero = new ExpanderChip(0, () -> 0, driven::add);
  private final ExpanderChip one = new ExpanderChip(1, () -> 0xA55A, p -> {});
  private final SharedSelect bus = new SharedSelect(List.of(zero, one));

  private String say(String hex) {
    byte[] out = HexFormat.of().parseHex(hex.replace(" ", ""));
    byte[] in = new byte[out.length];
    bus.frame(out, 0, in, 0, out.length);
    return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(in);
  }

  /** HAEN is off after power-on: all answer to address 0, none to another. */
  @Test
  void addressesCountOnlyOnceEnabled() {
    assertThat(say("43 12 00 00")).isEqualTo("00 00 00 00");
    say("40 0A 08 08");
    assertThat(say("43 12 00 00")).isEqualTo("00 00 5A A5");
    assertThat(say("41 12 00 00")).isEqualTo("00 00 00 00");
  }

  @Test
  void pinsDriveOnlyAsOutputs() {
    say("40 0A 08 08");
    say("40 14 13 03");
    assertThat(driven).isEmpty();
    say("40 00 00 FE");
    assertThat(driven).containsExactly(0x0113);
    say("40 12 00 00");
    assertThat(driven).containsExactly(0x0113, 0);
  }

  @Test
  void sequentialAccessGoesThroughTheRegisters() {
    say("40 0A 08 08");
    assertThat(say("43 00 00 00 00 00 00 00 00 00 00 00 00 00"))
        .isEqualTo("00 00 FF FF 00 00 00 00 00 00 00 00 08 08");
  }

  @Test
  void powerLossForgetsDirections() {
    say("40 0A 08 08");
    say("40 14 01 00");
    say("40 00 00 00");
    zero.powerOn();
    assertThat(driven).containsExactly(1, 0);
  }
}
