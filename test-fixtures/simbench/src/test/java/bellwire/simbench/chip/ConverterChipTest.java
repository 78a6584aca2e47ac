package bellwire.simbench.chip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.link.Tap;
import bellwire.simbench.AnalogSide;
import bellwire.simbench.FilterKernel;
import bellwire.simbench.VirtualClock;
import java.lang.reflect.Proxy;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * The converter at register level, spoken to in bytes. Constants restated from the data sheet
 * SBAS660C (commands, registers, reset values) and SBAS815A table 13 (times).
 */
class ConverterChipTest {
  private final VirtualClock clock = new VirtualClock();
  private double volts = 0.5;
  private double peakVolts = 0.5;
  private boolean stageOverloaded;
  private int conversions;
  private FilterKernel filter = new FilterKernel(new long[0]);
  private long windowStart;
  private final ConverterChip chip = chip(ConverterErrors.none());

  private ConverterChip chip(ConverterErrors errors) {
    AnalogSide analog =
        (AnalogSide)
            Proxy.newProxyInstance(
                AnalogSide.class.getClassLoader(),
                new Class<?>[] {AnalogSide.class},
                (proxy, method, arguments) -> {
                  if (!method.getName().equals("convert")) {
                    throw new AssertionError(method);
                  }
                  conversions++;
                  filter = (FilterKernel) arguments[2];
                  windowStart = (long) arguments[3];
                  return new AnalogSide.Seen(volts, peakVolts, stageOverloaded);
                });
    return new ConverterChip(
        analog, clock, input -> Tap.sense(input), errors, new SplittableRandom(1));
  }

  private String say(ConverterChip to, String hex) {
    byte[] out = HexFormat.of().parseHex(hex.replace(" ", ""));
    byte[] in = new byte[out.length];
    to.frame(out, 0, in, 0, out.length);
    return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(in);
  }

  private void pass(long nanos) {
    clock.advanceTo(clock.nanos() + nanos);
  }

  @Test
  void resetValuesAreTheDataSheets() {
    assertThat(say(chip, "20 11 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00"))
        .isEqualTo("00 00 00 80 01 00 14 10 00 FF 00 10 00 00 00 00 00 40 00 00");
  }

  @Test
  void aResetNeeds4096ClocksOfSilence() {
    say(chip, "44 00 15 06");
    assertThat(say(chip, "24 00 00")).isEqualTo("00 00 00");
    pass(1_000_000);
    assertThat(say(chip, "24 00 00")).isEqualTo("00 00 14");
  }

  @Test
  void theIdentityIsReadOnlyAndThePowerOnFlagIsOnlyCleared() {
    say(chip, "40 01 55 00");
    assertThat(say(chip, "20 01 00 00")).isEqualTo("00 00 00 00");
    say(chip, "41 00 80");
    assertThat(say(chip, "21 00 00")).isEqualTo("00 00 00");
  }

  /** Internal reference, gain 1, 400 SPS single shot, delay 1 tMOD: 681 periods of 3.90625 us. */
  @Test
  void aSingleConversionTakesDelayAndTableTime() {
    say(chip, "42 03 01 E8 39 3A");
    chip.startEdge();
    long end = clock.nanos() + (long) (681 * 3906.25);
    clock.advanceTo(end - 1);
    assertThat(chip.dataReadyLow()).isFalse();
    clock.advanceTo(end);
    assertThat(chip.dataReadyLow()).isTrue();
    // 0.5 V of 2.5 V full scale: 0.2 x 2^23 = 1677721.6
    assertThat(say(chip, "12 00 00 00")).isEqualTo("00 19 99 9A");
    assertThat(chip.dataReadyLow()).isFalse();
    pass(100_000_000);
    assertThat(chip.dataReadyLow()).isFalse();
    assertThat(conversions).isEqualTo(1);
    assertThat(windowStart + filter.lengthNanos()).isEqualTo(end);
    assertThat(filter.lengthNanos()).isEqualTo(2_500_000);
  }

  @Test
  void continuousConversionsFollowAtTheRateAndUnreadOnesAreLost() {
    say(chip, "42 03 01 E8 19 3A");
    chip.startEdge();
    pass((long) (681 * 3906.25));
    assertThat(chip.dataReadyLow()).isTrue();
    say(chip, "12 00 00 00");
    pass(2_499_999);
    assertThat(chip.dataReadyLow()).isFalse();
    pass(7_500_000);
    assertThat(chip.dataReadyLow()).isTrue();
    say(chip, "12 00 00 00");
    assertThat(conversions).isEqualTo(2);
    assertThat(chip.dataReadyLow()).isFalse();
  }

  @Test
  void aStartEdgeRestartsTheConversion() {
    say(chip, "42 03 01 E8 39 3A");
    chip.startEdge();
    pass(2_000_000);
    chip.startEdge();
    pass(2_000_000);
    assertThat(chip.dataReadyLow()).isFalse();
    pass(700_000);
    assertThat(chip.dataReadyLow()).isTrue();
  }

  @Test
  void statusAndCheckByteFrameTheResult() {
    say(chip, "41 00 00 42 03 01 E8 39 3A 46 00 80 49 00 13");
    chip.startEdge();
    pass(3_000_000);
    peakVolts = 2.6;
    // CRC-8 (x^8+x^2+x+1, from 0) of 24 19 99 9A computed here by table-free division.
    String expected = "00 24 19 99 9A " + String.format("%02X", crc(0x2419999AL));
    assertThat(say(chip, "12 00 00 00 00 00")).isEqualTo(expected);
    // held: the same again
    assertThat(say(chip, "12 00 00 00 00 00")).isEqualTo(expected);
    assertThat(conversions).isEqualTo(1);
  }

  @Test
  void codesEndAtFullScale() {
    say(chip, "42 03 01 EB 39 3A");
    volts = 0.4; // gain 8: 3.2 V of 2.5 V
    chip.startEdge();
    pass(3_000_000);
    assertThat(say(chip, "12 00 00 00")).isEqualTo("00 7F FF FF");
    volts = -0.4;
    chip.startEdge();
    pass(3_000_000);
    assertThat(say(chip, "12 00 00 00")).isEqualTo("00 80 00 00");
  }

  @Test
  void withoutItsReferenceSwitchedOnThereIsNoMeasurement() {
    say(chip, "42 02 01 E8 39");
    chip.startEdge();
    pass(3_000_000);
    assertThat(say(chip, "12 00 00 00")).isEqualTo("00 7F FF FF");
  }

  /** Each moving average of n line periods has a null at the line frequency. */
  @Test
  void slowRatesRejectTheLine() {
    for (int code : new int[] {0, 1, 2, 4}) {
      assertThat(response(code, 50)).as("code=%d", code).isLessThan(1e-6);
      assertThat(response(code, 60)).as("code=%d", code).isLessThan(1e-6);
    }
    assertThat(response(5, 50)).isLessThan(1e-6);
    assertThat(response(6, 60)).isLessThan(1e-3);
    assertThat(response(3, 50)).isLessThan(1e-6);
  }

  private static double response(int code, double hertz) {
    double product = 1;
    for (long box : LowLatencyFilter.kernel(code).boxNanos()) {
      double x = Math.PI * hertz * box * 1e-9;
      product *= Math.abs(Math.sin(x) / x);
    }
    return product;
  }

  /** The kernel fits in the conversion: never a sample from before the delay has passed. */
  @Test
  void noKernelIsLongerThanItsConversion() {
    for (int code = 0; code < LowLatencyFilter.CODES; code++) {
      assertThat(LowLatencyFilter.kernel(code).lengthNanos())
          .as("code=%d", code)
          .isLessThanOrEqualTo(LowLatencyFilter.firstNanos(code))
          .isGreaterThanOrEqualTo(LowLatencyFilter.periodNanos(code));
    }
  }

  /**
   * Noise sqrt((2 uV/gain)^2 + (0.06 uV)^2) sqrt(rate/20): 4000 draws give the standard deviation
   * to 1/sqrt(8000) = 1.1 %, five of which are allowed.
   */
  @Test
  void noiseHasItsSize() {
    ConverterChip noisy = chip(new ConverterErrors(2.5, new double[8], new double[8], 1));
    say(noisy, "42 03 01 EC 39 3A"); // gain 16, 400 SPS
    volts = 0;
    double[] seen = new double[4000];
    for (int i = 0; i < seen.length; i++) {
      noisy.startEdge();
      pass(3_000_000);
      byte[] in = new byte[4];
      noisy.frame(new byte[] {0x12, 0, 0, 0}, 0, in, 0, 4);
      int code = in[1] << 16 | (in[2] & 0xFF) << 8 | in[3] & 0xFF;
      seen[i] = code * 2.5 / 16 / (1 << 23);
    }
    double rms = Math.sqrt(Arrays.stream(seen).map(v -> v * v).average().orElseThrow());
    double expected = Math.hypot(2e-6 / 16, 0.06e-6) * Math.sqrt(400 / 20.0);
    assertThat(rms).isCloseTo(expected, within(0.056 * expected));
  }

  @Test
  void gainErrorAndOffsetAreOfTheGainInUse() {
    double[] gainError = {1e-3, 0, 0, 0, 0, 0, 0, 0};
    double[] offset = {0, 1e-3, 0, 0, 0, 0, 0, 0};
    ConverterChip off = chip(new ConverterErrors(2.5, gainError, offset, 0));
    say(off, "42 03 01 E8 39 3A");
    off.startEdge();
    pass(3_000_000);
    // 0.5005/2.5 x 2^23 = 1679399.3
    assertThat(say(off, "12 00 00 00")).isEqualTo("00 19 A0 27");
    say(off, "43 00 E9");
    off.startEdge();
    pass(3_000_000);
    // 0.501 x 2/2.5 x 2^23 = 3362154.1
    assertThat(say(off, "12 00 00 00")).isEqualTo("00 33 4D 6A");
  }

  private static long crc(long message) {
    long remainder = message << 8;
    for (int bit = 39; bit >= 8; bit--) {
      if ((remainder >>> bit & 1) != 0) {
        remainder ^= 0x107L << (bit - 8);
      }
    }
    return remainder;
  }
}
