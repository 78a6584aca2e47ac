package bellwire.agent.board;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.agent.chip.ChipTrouble;
import bellwire.link.Check;
import bellwire.link.Message.Samples;
import bellwire.link.Range;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.link.Tap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What each call leaves in the chips' registers; pins and bits restated from the pin map. */
class SensingBoardTest {
  private static final int CONTROL = 0;
  private static final int FLAGS = 1;
  private static final int FLAG_M = 2;
  private static final int CALL_WORD = 3;
  private static final int CALL_LOADS = 4;
  private static final int EVENT_CONTROL = 7;
  private static final int CONNECT = 0x0100;
  private static final int TEST_LOAD = 0x0200;
  private static final int WETTING = 0x0400;
  private static final int EVENT_WETTING = 0x01;
  private static final int EVENT_TOUCH = 0x02;

  private final BoardBus bus = new BoardBus();
  private final SensingBoard board = bus.board();

  @BeforeEach
  void reset() throws ChipTrouble {
    board.beginReset();
  }

  private static ScanStep step(int drive, boolean excite, boolean testLoad, Tap plus, Tap minus) {
    return new ScanStep(
        drive, 0, 0, excite, Range.NONE, Check.NONE, testLoad, plus, minus, 8, Rate.SPS_20, 0, 1);
  }

  private void begin(ScanStep step) throws ChipTrouble {
    board.begin(step, () -> 1000);
  }

  @Test
  void afterAResetNothingIsJoinedAndEveryPinIsWhatItIsFor() {
    assertThat(bus.chain).isZero();
    assertThat(bus.outputs).containsEntry("rearm", false).containsEntry("capture", false);
    for (int address = 0; address < 8; address++) {
      boolean output = address == CONTROL || address == CALL_LOADS || address == EVENT_CONTROL;
      assertThat(bus.directions(address)).as("chip %d", address).isEqualTo(output ? 0 : 0xFFFF);
      assertThat(bus.registers[address][BoardBus.IOCON]).as("chip %d", address).isEqualTo(8);
      if (output) {
        assertThat(bus.latches(address)).as("chip %d", address).isZero();
      }
    }
    assertThat(bus.converterHeard).containsExactly("06");
    assertThat(board.atRest()).isTrue();
    assertThat(board.connectAsked()).isFalse();
  }

  @Test
  void aSecondResetTakesTheChainForUnknown() throws ChipTrouble {
    board.guard(0b11);
    bus.chain = 0; // its supply was cut
    board.beginReset();
    board.open();
    assertThat(bus.chain).isZero();
  }

  @Test
  void flagsAreP1ToP16AndM() throws ChipTrouble {
    bus.pins[FLAGS] = 0x8001;
    bus.pins[FLAG_M] = 0xFFFE;
    assertThat(board.interlockFlags()).isEqualTo(0x0_8001);
    bus.pins[FLAGS] = 0;
    bus.pins[FLAG_M] = 1;
    assertThat(board.interlockFlags()).isEqualTo(0x1_0000);
  }

  @Test
  void linesAreWhatTheirNamesSay() throws ChipTrouble {
    assertThat(board.interlockTripped()).isFalse();
    bus.high.add("tripped");
    assertThat(board.interlockTripped()).isTrue();
    assertThat(board.interlockOutside()).isFalse();
    bus.high.add("outside");
    assertThat(board.interlockOutside()).isTrue();
    board.heartbeat();
    assertThat(bus.outputs).containsEntry("heartbeat", true);
    board.heartbeat();
    assertThat(bus.outputs).containsEntry("heartbeat", false);
    board.rearm(true);
    assertThat(bus.outputs).containsEntry("rearm", true);
    board.beginReset();
    assertThat(bus.outputs).containsEntry("rearm", false);
  }

  @Test
  void callsAreFedWithoutTouchingTheRelays() throws ChipTrouble {
    board.connect();
    board.feedCalls(true, 0x8001);
    assertThat(bus.latches(CONTROL)).isEqualTo(CONNECT | WETTING);
    assertThat(bus.latches(CALL_LOADS)).isEqualTo(0x8001);
    board.feedCalls(false, 0);
    assertThat(bus.latches(CONTROL)).isEqualTo(CONNECT);
    assertThat(bus.latches(CALL_LOADS)).isZero();
    bus.pins[CALL_WORD] = 0x4002;
    assertThat(board.callWord()).isEqualTo(0x4002);
  }

  @Test
  void relaysAreFedWithTheTestLoadOffAndLetGoAlone() throws ChipTrouble {
    begin(step(0, false, true, Tap.COMMON, Tap.COMMON));
    assertThat(bus.latches(CONTROL)).isEqualTo(TEST_LOAD);
    assertThat(board.atRest()).isFalse();
    board.feedCalls(true, 0);
    board.connect();
    assertThat(bus.latches(CONTROL)).isEqualTo(CONNECT | WETTING);
    assertThat(board.connectAsked()).isTrue();
    assertThat(board.atRest()).isFalse();
    board.disconnect();
    assertThat(bus.latches(CONTROL)).isEqualTo(WETTING);
    assertThat(board.connectAsked()).isFalse();
    assertThat(board.atRest()).isTrue();
  }

  /** All its pins are inputs again: the relays would stay open and every conductor look broken. */
  @Test
  void aChipThatLostItsSupplyIsNotFed() throws ChipTrouble {
    board.verifyCallWord();
    for (int address : new int[] {CONTROL, CALL_WORD, CALL_LOADS, EVENT_CONTROL}) {
      board.beginReset();
      bus.losesItsSupply(address);
      bus.registers[address][BoardBus.IODIR] = 0; // silence reads so
      bus.registers[address][BoardBus.IODIR + 1] = 0;
      switch (address) {
        case CALL_WORD -> assertThatThrownBy(board::verifyCallWord).isInstanceOf(ChipTrouble.class);
        case CALL_LOADS ->
            assertThatThrownBy(() -> board.feedCalls(false, 1)).isInstanceOf(ChipTrouble.class);
        case EVENT_CONTROL ->
            assertThatThrownBy(() -> board.events().feed(true, false))
                .isInstanceOf(ChipTrouble.class);
        default -> controlIsNotFed();
      }
    }
  }

  private void controlIsNotFed() throws ChipTrouble {
    assertThatThrownBy(() -> board.feedCalls(false, 0)).isInstanceOf(ChipTrouble.class);
    board.beginReset();
    bus.losesItsSupply(CONTROL);
    assertThatThrownBy(board::connect).isInstanceOf(ChipTrouble.class);
    board.beginReset();
    bus.losesItsSupply(CONTROL);
    assertThatThrownBy(board::verifyControl).isInstanceOf(ChipTrouble.class);
  }

  @Test
  void pinsThatAreNotAsToldAreFoundOut() throws ChipTrouble {
    board.connect();
    board.verifyControl();
    bus.registers[CONTROL][BoardBus.OLAT + 1] = 0;
    assertThatThrownBy(board::verifyControl).isInstanceOf(ChipTrouble.class);
    board.events().feed(true, true);
    board.events().verify();
    bus.registers[EVENT_CONTROL][BoardBus.OLAT] = EVENT_TOUCH;
    assertThatThrownBy(() -> board.events().verify()).isInstanceOf(ChipTrouble.class);
  }

  @Test
  void anyPortJoinedIsNoRest() throws ChipTrouble {
    begin(step(1, false, false, Tap.COMMON, Tap.COMMON));
    assertThat(board.atRest()).isFalse();
    board.open();
    assertThat(bus.chain).isZero();
    assertThat(board.atRest()).isTrue();
    board.events().feed(true, false);
    assertThat(bus.latches(EVENT_CONTROL)).isEqualTo(EVENT_WETTING);
    assertThat(board.atRest()).isFalse();
    board.events().feed(false, true);
    assertThat(bus.latches(EVENT_CONTROL)).isEqualTo(EVENT_TOUCH);
    assertThat(board.atRest()).isTrue();
  }

  /** Bit 3·port + column, guard in column 2. */
  @Test
  void aDischargeHoldsEveryPortAtCommonAndWetsNone() throws ChipTrouble {
    board.events().feed(true, false);
    board.guard(0b101);
    assertThat(bus.chain).isEqualTo(1L << 2 | 1L << 8);
    board.discharge();
    long all = 0;
    for (int port = 0; port < 17; port++) {
      all |= 1L << (3 * port + 2);
    }
    assertThat(bus.chain).isEqualTo(all);
    assertThat(bus.latches(EVENT_CONTROL)).isZero();
  }

  @Test
  void whatIsMadeSafeIsAllMadeSafeWhateverFails() throws ChipTrouble {
    everythingOn();
    bus.crosspointFails = true;
    assertThatThrownBy(board::safe)
        .isInstanceOfSatisfying(
            ChipTrouble.class, e -> assertThat(e.chip()).isEqualTo("crosspoint"));
    assertThat(bus.latches(CONTROL)).isZero();
    assertThat(bus.latches(CALL_LOADS)).isZero();
    assertThat(bus.latches(EVENT_CONTROL)).isZero();
    bus.crosspointFails = false;
    board.beginReset();
    everythingOn();
    bus.expandersFail = true;
    assertThatThrownBy(board::safe)
        .isInstanceOfSatisfying(
            ChipTrouble.class, e -> assertThat(e.chip()).isEqualTo("expanders"));
    assertThat(bus.chain).isZero();
    bus.expandersFail = false;
    board.safe();
    assertThat(board.atRest()).isTrue();
    assertThat(bus.latches(CALL_LOADS)).isZero();
  }

  private void everythingOn() throws ChipTrouble {
    board.events().feed(true, true);
    board.feedCalls(true, 0xFFFF);
    board.connect();
    begin(step(1, true, false, Tap.COMMON, Tap.COMMON));
  }

  /** GPA0 to 3 point multiplexer A, GPA4 to 7 multiplexer B; M has inputs of its own. */
  @Test
  void portsAreTappedThroughTheMultiplexers() throws ChipTrouble {
    begin(step(0b10, true, false, Tap.sense(5), Tap.sense(9)));
    assertThat(bus.latches(CONTROL)).isEqualTo(0x95);
    assertThat(bus.chain).isEqualTo(1L << 3 | 1L << 56); // P2's drive, excite
    begin(step(0, false, false, Tap.monitor(14), Tap.COMMON));
    assertThat(bus.latches(CONTROL)).isEqualTo(0x9E);
    begin(step(0, false, false, Tap.sense(ScanStep.METAL), Tap.monitor(ScanStep.METAL)));
    assertThat(bus.latches(CONTROL)).isEqualTo(0x9E);
    // WREG from INPMUX: 2 sense-m, 11 monitor-m; delay code 7, the shortest, gain 8 is 2^3; 20 a
    // second is rate 4
    assertThat(bus.converterHeard.get(bus.converterHeard.size() - 1)).startsWith("42022beb34");
  }

  @Test
  void aReadingCarriesItsSwitchStateAndWhatMakesItWrong() throws ChipTrouble {
    begin(step(1, true, false, Tap.sense(0), Tap.COMMON));
    bus.high.add("data-ready");
    assertThat(board.poll(() -> 57_000)).isNull();
    bus.high.remove("data-ready");
    answer(0x80, 0x12, 0x34, 0x56);
    Reading reading = board.poll(() -> 58_000);
    assertThat(reading.code()).isEqualTo(0x123456);
    assertThat(reading.chain()).isEqualTo(1L | 1L << 56);
    assertThat(reading.setup()).isEqualTo(0x00_06_03_04);
    assertThat(reading.flags()).isZero();
    assertThat(reading.deviceMicros()).isEqualTo(57_508); // its own end, between the two polls
    answer(0x84, 0x12, 0x34, 0x56);
    assertThat(board.poll(() -> 59_000).flags()).isEqualTo(Samples.OVERLOAD);
  }

  @Test
  void missedConversionsAreMarked() throws ChipTrouble {
    ScanStep many =
        new ScanStep(
            0,
            0,
            0,
            false,
            Range.NONE,
            Check.NONE,
            false,
            Tap.COMMON,
            Tap.COMMON,
            1,
            Rate.SPS_400,
            0,
            2);
    begin(many);
    answer(0x80, 0, 0, 1);
    assertThat(board.poll(() -> 3_800).flags()).isZero();
    assertThat(board.poll(() -> 13_000).flags()).isEqualTo(Samples.MISSED);
  }

  /** A single conversion that is late was not missed: there is no other to take its place. */
  @Test
  void aSingleConversionIsNeverMissed() throws ChipTrouble {
    begin(step(0, false, false, Tap.COMMON, Tap.COMMON));
    answer(0x80, 0, 0, 1);
    assertThat(board.poll(() -> 500_000).flags()).isZero();
  }

  @Test
  void aSilentConverterIsNoticed() throws ChipTrouble {
    begin(step(0, false, false, Tap.COMMON, Tap.COMMON));
    bus.high.add("data-ready");
    assertThat(board.poll(() -> 70_000)).isNull();
    assertThatThrownBy(() -> board.poll(() -> 90_000))
        .isInstanceOf(ChipTrouble.class)
        .hasMessageContaining("silent");
  }

  /** CRC-8 by x^8+x^2+x+1 over STATUS and data, worked here bit by bit. */
  private void answer(int status, int high, int middle, int low) {
    int crc = 0;
    for (int each : new int[] {status, high, middle, low}) {
      for (int bit = 7; bit >= 0; bit--) {
        boolean out = (crc >> 7 & 1) != (each >> bit & 1);
        crc = crc << 1 & 0xFF;
        crc = out ? crc ^ 0x07 : crc;
      }
    }
    bus.result = new byte[] {0, (byte) status, (byte) high, (byte) middle, (byte) low, (byte) crc};
  }
}
