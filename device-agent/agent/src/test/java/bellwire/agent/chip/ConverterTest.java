package bellwire.agent.chip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.link.Rate;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

/**
 * The exact bytes on the bus. All constants here are restated from the ADS124S0x data sheet
 * SBAS660C (table 24, sections 9.6.1.1 to 9.6.1.10), not taken from the driver.
 */
class ConverterTest {
  /** While fourteen registers are read. */
  private static final String ZEROS = " 00".repeat(14);

  private final ScriptedSpi bus = new ScriptedSpi();
  private final Converter converter = new Converter(bus.spi());

  @Test
  void resetIsOneByte() throws ChipTrouble {
    bus.expect("06", "00");
    converter.reset();
    bus.done();
  }

  /** RREG ID, RREG STATUS, WREG+RREG REF..IDACMAG, WREG+RREG SYS; FL_POR stays set. */
  @Test
  void configureChecksTheChipAndReadsEverySettingBack() throws ChipTrouble {
    bus.expect("20 00 00", "00 00 00")
        .expect("21 00 00", "00 00 80")
        .expect("45 01 3A 80 25 01 00 00", "00 00 00 00 00 00 3A 80")
        .expect("49 00 13 29 00 00", "00 00 00 00 00 13");
    converter.configure();
    bus.done();
  }

  @Test
  void anotherChipOfTheFamilyIsRefused() {
    bus.expect("20 00 00", "00 00 01").expect("21 00 00", "00 00 80");
    assertThatThrownBy(converter::configure)
        .isInstanceOf(ChipTrouble.class)
        .hasMessageContaining("id=1");
  }

  @Test
  void aDataLineStuckLowIsNoConverter() {
    bus.expect("20 00 00", "00 00 00").expect("21 00 00", "00 00 00");
    assertThatThrownBy(converter::configure).hasMessageContaining("status=0x0");
  }

  /** INPMUX 34, PGA: delay code 4 (1024 tMOD), enabled, gain 16; DATARATE: single, LL, 20 SPS. */
  @Test
  void setUpWritesInputGainDelayAndRateAndReadsThemBack() throws ChipTrouble {
    bus.expect(
        "42 02 34 8C 34 22 0D" + ZEROS,
        "00 00 00 00 00 00 00 34 8C 34 3A 80 FF 00 13 00 00 00 00 00 40");
    converter.setUp(3, 4, 16, Rate.SPS_20, 4, false);
    bus.done();
  }

  @Test
  void continuousModeClearsTheModeBit() throws ChipTrouble {
    bus.expect(
        "42 02 01 EF 1A 22 0D" + ZEROS,
        "00 00 00 00 00 00 00 01 EF 1A 3A 80 FF 00 13 00 00 00 00 00 40");
    converter.setUp(0, 1, 128, Rate.SPS_800, 7, true);
    bus.done();
  }

  @Test
  void aSettingThatDoesNotStickIsTrouble() {
    for (int i = 0; i < 3; i++) {
      bus.expect(
          "42 02 01 08 34 22 0D" + ZEROS,
          "00 00 00 00 00 00 00 01 08 14 3A 80 FF 00 13 00 00 00 00 00 40");
    }
    assertThatThrownBy(() -> converter.setUp(0, 1, 1, Rate.SPS_20, 0, false))
        .isInstanceOf(ChipTrouble.class)
        .hasMessageContaining("register=2");
    bus.done();
  }

  /** A damaged command may have gone to another register: here to the currents' magnitude. */
  @Test
  void aSettingThatNobodyAskedForIsTrouble() {
    for (int i = 0; i < 3; i++) {
      bus.expect(
          "42 02 01 08 34 22 0D" + ZEROS,
          "00 00 00 00 00 00 00 01 08 34 3A 86 FF 00 13 00 00 00 00 00 40");
    }
    assertThatThrownBy(() -> converter.setUp(0, 1, 1, Rate.SPS_20, 0, false))
        .isInstanceOf(ChipTrouble.class)
        .hasMessageContaining("lost its settings");
    bus.done();
  }

  @Test
  void settingsAreProvedWithoutBeingWritten() throws ChipTrouble {
    String settings = "01 08 34 3A 80 FF 00 13 00 00 00 00 00 40";
    bus.expect("42 02 01 08 34 22 0D" + ZEROS, "00 00 00 00 00 00 00 " + settings)
        .expect("22 0D" + ZEROS, "00 00 " + settings);
    converter.setUp(0, 1, 1, Rate.SPS_20, 0, false);
    converter.verify();
    bus.done();
  }

  /** CRC-8 x^8+x^2+x+1 from zero: catalogue check value 0xF4 over "123456789" (CRC-8/SMBUS). */
  @Test
  void crcHasTheCataloguesCheckValue() {
    byte[] nine = "123456789".getBytes(StandardCharsets.US_ASCII);
    assertThat(Converter.crc8(nine, 0, 9)).isEqualTo(0xF4);
  }

  /** STATUS 80, data FF FF FE (-2), CRC by hand-independent division: see crcOf. */
  @Test
  void aResultIsSignedAndChecked() throws ChipTrouble {
    bus.expect("12 00 00 00 00 00", "00 80 FF FF FE " + crcOf(0x80FFFFFEL));
    assertThat(converter.read()).isEqualTo(new Conversion(-2, false));
    bus.done();
  }

  @Test
  void railFlagsAndEndsOfScaleAreOverloads() throws ChipTrouble {
    bus.expect("12 00 00 00 00 00", "00 A0 00 00 05 " + crcOf(0xA0000005L))
        .expect("12 00 00 00 00 00", "00 84 00 00 05 " + crcOf(0x84000005L))
        .expect("12 00 00 00 00 00", "00 80 7F FF FF " + crcOf(0x807FFFFFL))
        .expect("12 00 00 00 00 00", "00 80 80 00 00 " + crcOf(0x80800000L));
    assertThat(converter.read()).isEqualTo(new Conversion(5, true));
    assertThat(converter.read()).isEqualTo(new Conversion(5, true));
    assertThat(converter.read()).isEqualTo(new Conversion(0x7FFFFF, true));
    assertThat(converter.read()).isEqualTo(new Conversion(-0x800000, true));
    bus.done();
  }

  @Test
  void aDamagedResultIsAskedForAgain() throws ChipTrouble {
    bus.expect("12 00 00 00 00 00", "00 80 01 00 00 " + crcOf(0x80000000L))
        .expect("12 00 00 00 00 00", "00 80 00 12 34 " + crcOf(0x80001234L));
    assertThat(converter.read().code()).isEqualTo(0x1234);
    bus.done();
  }

  @Test
  void aResultThatStaysDamagedIsTrouble() {
    for (int i = 0; i < 3; i++) {
      bus.expect("12 00 00 00 00 00", "FF FF FF FF FF FF");
    }
    bus.expect("29 00 00", "00 00 13");
    assertThatThrownBy(converter::read).hasMessageContaining("damaged");
    bus.done();
  }

  /** The check byte of zeros is zero; the flag of the start tells them from a good result. */
  @Test
  void zeroIsBelievedOnlyFromALivingLine() throws ChipTrouble {
    bus.expect("12 00 00 00 00 00", "00 80 00 00 00 " + crcOf(0x80000000L));
    assertThat(converter.read()).isEqualTo(new Conversion(0, false));
    for (int i = 0; i < 3; i++) {
      bus.expect("12 00 00 00 00 00", "00 00 00 00 00 00");
    }
    bus.expect("29 00 00", "00 00 13");
    assertThatThrownBy(converter::read).hasMessageContaining("damaged");
    bus.done();
  }

  /** Without STATUS and CRC: the data register again and again. */
  @Test
  void aResetBehindOurBackIsTrouble() {
    for (int i = 0; i < 3; i++) {
      bus.expect("12 00 00 00 00 00", "00 80 00 05 80 00");
    }
    bus.expect("29 00 00", "00 00 10");
    assertThatThrownBy(converter::read).hasMessageContaining("lost its supply");
  }

  @Test
  void pi4jsWayOfReportingFailureIsSeen() {
    bus.expectFailing("06", -1);
    assertThatThrownBy(converter::reset)
        .isInstanceOfSatisfying(ChipTrouble.class, e -> assertThat(e.chip()).isEqualTo("converter"))
        .hasMessageContaining("moved=-1 of=1");
  }

  /** Long division of the 32 bits, most significant first, by 1 0000 0111. */
  private static String crcOf(long message) {
    long remainder = message << 8;
    for (int bit = 39; bit >= 8; bit--) {
      if ((remainder >>> bit & 1) != 0) {
        remainder ^= 0x107L << (bit - 8);
      }
    }
    return String.format("%02X", remainder);
  }
}
