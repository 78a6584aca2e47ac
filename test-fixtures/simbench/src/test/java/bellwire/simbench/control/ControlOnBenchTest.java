package bellwire.simbench.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.simbench.RandomBenches;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.control.Operation.Fan;
import org.junit.jupiter.api.Test;

/** A bench file's control, operated by the file and by the one who runs the bench. */
class ControlOnBenchTest {
  @Test
  void actionsComeAtTheirTimesAndOthersAtOnce() {
    String text =
        """
        bellwire-bench: 1
        seed: 3
        control:
          kind: furnace-cooling
          actions: [{at: 200.5 ms, mode: heat, set: 1 K}]
        """;
    try (SimulatedDevice device = new SimulatedDevice(RandomBenches.parse(text))) {
      SimulatedControl control = device.control().orElseThrow();
      device.run(1_000_000);
      // 1 s to a call, and the relay's own 4 to 8 ms.
      assertThat(control.nextChange(1_000_000_000L)).isBetween(1_204_500_000L, 1_208_500_000L);
      device.operate(Operation.fan(Fan.ON));
      device.run(900_000);
      assertThat(control.closed("W1", 1_900_000_000L)).isTrue();
      assertThat(control.closed("G", 1_900_000_000L)).isFalse();
      assertThat(control.nextChange(1_900_000_000L)).isBetween(2_004_000_000L, 2_008_000_000L);
    }
  }

  @Test
  void aBenchWithoutControlSaysSo() {
    try (SimulatedDevice device =
        new SimulatedDevice(RandomBenches.parse(RandomBenches.text(1, 2, "")))) {
      assertThatThrownBy(() -> device.operate(Operation.fan(Fan.ON)))
          .hasMessageContaining("no control");
    }
  }

  /** 1 s to the call, 4 to 8 ms and 3 ms of bounce; 0.3 s to its end, 2.5 to 5 ms and 3/7 ms. */
  @Test
  void aDryContactIsSeenThroughTheAgent() {
    Words words =
        Words.watch(
            """
            control:
              kind: boiler-dry
              leads: {X5: W1}
              bounce: 3 ms
              actions: [{at: 3 s, mode: heat, set: 1 K}, {at: 5 s, set: -1 K}]
            """,
            true,
            0,
            7);
    assertThat(words.share(4, 1.5, 4.003)).isZero();
    assertThat(words.share(4, 4.012, 5.302)).isEqualTo(1);
    assertThat(words.share(4, 5.306, 7)).isZero();
    assertThat(words.share(3, 1.5, 7)).isZero();
  }

  /**
   * Of 24 V less 1 %, 1 − 2/π·asin(9/(√2·23.76)) = 0.827 of the time lies above 9 V, 0.012 more or
   * less for 0.6 V of the threshold; a leak of 60 % shows without the dummy load, and not with it.
   */
  @Test
  void aSemiconductorIsSeenThroughTheAgent() {
    String control =
        """
        control:
          kind: furnace-cooling
          contacts: semiconductor
          leak: 60 %
          actions: [{at: 4 s, mode: heat, set: 1 K}]
        """;
    Words loaded = Words.watch(control, false, 0b111, 8);
    assertThat(loaded.share(0, 1.5, 4.9)).isZero();
    assertThat(loaded.share(0, 5.1, 7.9)).isBetween(0.80, 0.85);
    assertThat(loaded.share(1, 1.5, 7.9)).isZero();
    Words unloaded = Words.watch(control, false, 0, 8);
    assertThat(unloaded.share(0, 1.5, 4.9)).isBetween(0.68, 0.75);
  }
}
