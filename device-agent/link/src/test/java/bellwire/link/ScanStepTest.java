package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What a step may ask for, as docs/link.cddl has it: the last value taken and the first refused.
 */
class ScanStepTest {
  private static final int METAL = 1 << ScanStep.METAL;

  private static ScanStep step(int drive, int returned, int guard, boolean excite, boolean load) {
    return new ScanStep(
        drive,
        returned,
        guard,
        excite,
        Range.NONE,
        Check.NONE,
        load,
        Tap.COMMON,
        Tap.COMMON,
        1,
        Rate.SPS_20,
        0,
        1);
  }

  private static ScanStep numbers(int gain, int settleMicros, int repeats) {
    return new ScanStep(
        1,
        2,
        4,
        true,
        Range.LOW,
        Check.NONE,
        false,
        Tap.sense(0),
        Tap.COMMON,
        gain,
        Rate.SPS_20,
        settleMicros,
        repeats);
  }

  /** The interlock is asked for by these alone. */
  @ParameterizedTest
  @CsvSource({"1, 0, 0, false", "0, 1, 0, false", "0, 0, 1, false", "0, 0, 0, true"})
  void aJoinedPortOrTheExcitationDrives(int drive, int returned, int guard, boolean excite) {
    assertThat(step(drive, returned, guard, excite, false).drives()).isTrue();
  }

  @Test
  void theTestLoadAloneDrivesNothing() {
    assertThat(step(0, 0, 0, false, false).drives()).isFalse();
    assertThat(step(0, 0, 0, false, true).drives()).isFalse();
  }

  @ParameterizedTest
  @CsvSource({"1, 0, 0", "0, 1, 0", "0, 0, 1", "5, 2, 0"})
  void theTestLoadIsForUnjoinedPortsOnly(int drive, int returned, int guard) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> step(drive, returned, guard, false, true))
        .withMessageStartingWith("test load");
  }

  @ParameterizedTest
  @CsvSource({"3, 1, 0", "3, 0, 2", "0, 6, 4", "7, 1, 8"})
  void noPortIsOnTwoBuses(int drive, int returned, int guard) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> step(drive, returned, guard, true, false))
        .withMessageStartingWith("a port on two buses");
  }

  @ParameterizedTest
  @CsvSource({"131072, 0, 0", "0, 131072, 0", "0, 0, 131072", "-1, 0, 0"})
  void beyondMetalThereIsNoPort(int drive, int returned, int guard) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> step(drive, returned, guard, true, false))
        .withMessageStartingWith("port mask beyond");
    assertThat(step(METAL, METAL >> 1, METAL >> 2, true, false).drive()).isEqualTo(METAL);
  }

  @Test
  void theEndsOfTheRangesAreTaken() {
    assertThat(numbers(1, 0, 1).gain()).isEqualTo(1);
    assertThat(numbers(128, 16_000, 4096).settleMicros()).isEqualTo(16_000);
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0, 1, gain=0",
    "256, 0, 1, gain=256",
    "3, 0, 1, gain=3",
    "1, -1, 1, settleMicros=-1",
    "1, 16001, 1, settleMicros=16001",
    "1, 0, 0, repeats=0",
    "1, 0, 4097, repeats=4097"
  })
  void whatIsBeyondThemIsNamed(int gain, int settleMicros, int repeats, String message) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> numbers(gain, settleMicros, repeats))
        .withMessage(message);
  }

  @Test
  void aTapHasAPortWhereItsKindHasOne() {
    assertThat(Tap.sense(16).port()).isEqualTo(16);
    assertThat(Tap.monitor(0).port()).isZero();
    assertThatIllegalArgumentException().isThrownBy(() -> Tap.sense(17));
    assertThatIllegalArgumentException().isThrownBy(() -> Tap.sense(-1));
    assertThatIllegalArgumentException().isThrownBy(() -> Tap.monitor(17));
    assertThatIllegalArgumentException().isThrownBy(() -> new Tap(Tap.Kind.COMMON, 0));
  }
}
