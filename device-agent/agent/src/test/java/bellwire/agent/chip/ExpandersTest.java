package bellwire.agent.chip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Collections;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The exact bytes on the bus: control byte 0100 A2 A1 A0 R/W, register numbers with BANK = 0,
 * restated from the MCP23S17 data sheet DS20001952 (figure 3-5, table 3-1).
 */
class ExpandersTest {
  private final ScriptedSpi bus = new ScriptedSpi();
  private final Expanders expanders = new Expanders(bus.spi());

  @Test
  void addressesAreEnabledByOneWriteToAll() throws ChipTrouble {
    bus.expect("40 0A 08 08", "00 00 00 00");
    expanders.enableAddresses();
    bus.done();
  }

  @Test
  void outputsAreLowBeforeTheyDrive() throws ChipTrouble {
    bus.expect("42 0A 08 08", "00 00 00 00")
        .expect("43 0A 08 08", "00 00 08 08")
        .expect("42 14 00 00", "00 00 00 00")
        .expect("43 14 00 00", "00 00 00 00")
        .expect("42 00 00 00", "00 00 00 00")
        .expect("43 00 00 00", "00 00 00 00");
    expanders.makeOutputs(1);
    bus.done();
  }

  @Test
  void inputsAreMadeAndRead() throws ChipTrouble {
    bus.expect("44 0A 08 08", "00 00 00 00")
        .expect("45 0A 08 08", "00 00 08 08")
        .expect("44 00 FF FF", "00 00 00 00")
        .expect("45 00 FF FF", "00 00 FF FF")
        .expect("44 02 00 00", "00 00 00 00")
        .expect("45 02 00 00", "00 00 00 00")
        .expect("44 14 58 C3", "00 00 00 00")
        .expect("45 14 58 C3", "00 00 58 C3")
        .expect("45 12 58 C3 58 C3", "00 00 34 12 58 C3");
    expanders.makeInputs(2);
    assertThat(expanders.get(2)).isEqualTo(0x1234);
    bus.done();
  }

  @Test
  void aLatchIsWrittenAndReadBack() throws ChipTrouble {
    bus.expect("40 14 53 01", "00 00 00 00").expect("41 14 53 01", "00 00 53 01");
    expanders.set(0, 0x0153);
    bus.done();
  }

  /** Loads once counted as off on a line that was stuck low: zeros are what it reads. */
  @Test
  void zerosAreNotTakenForSwitchedOffUnheard() throws ChipTrouble {
    bus.expect("48 14 00 00", "00 00 00 00")
        .expect("49 14 00 00", "00 00 00 00")
        .expect("49 0A 08 08", "00 00 08 08");
    expanders.set(4, 0);
    bus.expect("48 14 00 00", "00 00 00 00").expect("49 14 00 00", "00 00 00 00");
    for (int attempt = 0; attempt < 3; attempt++) {
      bus.expect("49 0A 08 08", "00 00 00 00");
    }
    assertThatThrownBy(() -> expanders.set(4, 0)).hasMessageContaining("lost its settings");
    bus.done();
  }

  @Test
  void aLatchThatDoesNotHoldIsTriedAgainThenTrouble() {
    for (int i = 0; i < 3; i++) {
      bus.expect("40 14 53 01", "00 00 00 00").expect("41 14 53 01", "00 00 00 00");
    }
    assertThatThrownBy(() -> expanders.set(0, 0x0153))
        .isInstanceOfSatisfying(
            ChipTrouble.class, e -> assertThat(e.chip()).isEqualTo("expander 0"))
        .hasMessageContaining("wrote=0x153 read=0x0");
    bus.done();
  }

  /** A chip of inputs that no longer listens leaves the line low: all its pins would read zero. */
  @Test
  void inputsThatDoNotAnswerAreFoundOut() throws ChipTrouble {
    bus.expect("47 00 FF FF", "00 00 FF FF").expect("47 02 00 00", "00 00 00 00");
    expanders.verifyInputs(3);
    for (int attempt = 0; attempt < 3; attempt++) {
      bus.expect("47 00 FF FF", "00 00 00 00");
    }
    assertThatThrownBy(() -> expanders.verifyInputs(3)).hasMessageContaining("read=0x0");
    bus.done();
  }

  @Test
  void aChipThatLostItsSupplyIsFoundOut() {
    for (int attempt = 0; attempt < 3; attempt++) {
      bus.expect("41 0A 08 08", "00 00 00 00");
    }
    assertThatThrownBy(() -> expanders.verifyOutputs(0)).hasMessageContaining("read=0x0");
    bus.expect("41 0A 08 08", "00 00 08 08");
    for (int attempt = 0; attempt < 3; attempt++) {
      bus.expect("41 00 00 00", "00 00 FF FF");
    }
    assertThatThrownBy(() -> expanders.verifyOutputs(0)).hasMessageContaining("read=0xffff");
    bus.done();
  }

  @Test
  void oneDisturbedTransferIsNoTrouble() throws ChipTrouble {
    bus.expect("4F 0A 08 08", "00 00 08 08");
    bus.expect("4F 00 00 00", "00 00 10 00").expect("4F 00 00 00", "00 00 00 00");
    expanders.verifyOutputs(7);
    bus.done();
  }

  /** It once did: directions of zero are what silence reads as. */
  @Test
  void silenceIsNotTakenForOutputs() {
    for (int attempt = 0; attempt < 3; attempt++) {
      bus.expect("49 0A 08 08", "00 00 00 00");
    }
    assertThatThrownBy(() -> expanders.verifyOutputs(4)).hasMessageContaining("lost its settings");
    bus.done();
  }

  /** Control and loads: where a write to one did not arrive, the other may have taken it. */
  @Test
  void aWriteThatWentAstrayIsPutRightWhereItWent() throws ChipTrouble {
    outputs(0, "40", "41");
    outputs(4, "48", "49");
    bus.expect("40 14 11 00", "00 00 00 00")
        .expect("41 14 11 00", "00 00 00 00") // not there
        .expect("40 14 11 00", "00 00 00 00")
        .expect("41 14 11 00", "00 00 11 00")
        .expect("41 14 11 00", "00 00 11 00")
        .expect("49 14 00 00", "00 00 11 00") // but here, and loads are on
        .expect("48 14 00 00", "00 00 00 00")
        .expect("41 14 11 00", "00 00 11 00")
        .expect("49 14 00 00", "00 00 00 00");
    expanders.set(0, 0x0011);
    bus.done();
  }

  private void outputs(int address, String write, String read) throws ChipTrouble {
    bus.expect(write + " 0A 08 08", "00 00 00 00")
        .expect(read + " 0A 08 08", "00 00 08 08")
        .expect(write + " 14 00 00", "00 00 00 00")
        .expect(read + " 14 00 00", "00 00 00 00")
        .expect(write + " 00 00 00", "00 00 00 00")
        .expect(read + " 00 00 00", "00 00 00 00");
    expanders.makeOutputs(address);
  }

  @Test
  void aWordCountsThatWasReadAlikeThreeTimesInARow() throws ChipTrouble {
    for (String word : new String[] {"01 00", "01 00", "01 40", "01 00", "01 00", "01 00"}) {
      bus.expect("47 12 59 C3 59 C3", "00 00 " + word + " 59 C3");
    }
    assertThat(expanders.steady(3)).isEqualTo(0x0001);
    bus.done();
  }

  /** Stuck high for some milliseconds, they once were touches at every port: soak seed 16. */
  @ParameterizedTest
  @ValueSource(strings = {"00", "FF"})
  void stuckLinesAreNoInputs(String all) {
    for (int attempt = 0; attempt < 3; attempt++) {
      bus.expect("47 12 59 C3 59 C3", String.join(" ", Collections.nCopies(6, all)));
    }
    assertThatThrownBy(() -> expanders.get(3)).hasMessageContaining("without its signature");
    bus.done();
  }

  @Test
  void aWordThatNeverStaysIsTrouble() {
    for (int i = 0; i < 16; i++) {
      String word = i % 2 == 0 ? "01 00" : "00 00";
      bus.expect("47 12 59 C3 59 C3", "00 00 " + word + " 59 C3");
    }
    assertThatThrownBy(() -> expanders.steady(3)).hasMessageContaining("differently each time");
    bus.done();
  }

  @Test
  void aLineThatDisturbsOneTransferAfterTheOtherIsTrouble() {
    for (int i = 0; i < 5; i++) {
      bus.expect("4F 0A 08 08", "00 00 08 08")
          .expect("4F 00 00 00", "00 00 10 00")
          .expect("4F 00 00 00", "00 00 00 00");
    }
    assertThatThrownBy(
            () -> {
              for (int i = 0; i < 5; i++) {
                expanders.verifyOutputs(7);
              }
            })
        .hasMessageContaining("heard badly");
    bus.done();
  }
}
