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
}
