package bellwire.app.serial;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SerialTransportTest {
  @TempDir Path directory;

  @Test
  void aPulledDeviceIsAwayUntilItIsBack() throws Exception {
    SerialRig.require();
    try (SerialRig rig = new SerialRig(directory);
        SerialTransport transport = SerialTransport.open(rig.hostDevice(), 921_600)) {
      assertThat(transport.away()).isFalse();
      rig.pull();
      await(transport, transport::away);
      assertThat(transport.read(new byte[16])).isZero();
      transport.write(new byte[] {1}, 0, 1);
      rig.plugAgain();
      await(transport, () -> !transport.away());
      assertThat(transport.name()).isEqualTo(rig.hostDevice());
    }
  }

  private static void await(SerialTransport transport, BooleanSupplier condition) {
    long deadline =
        transport.nowMicros() + TimeUnit.SECONDS.toMicros(ChildProgram.PATIENCE_SECONDS);
    while (!condition.getAsBoolean()) {
      assertThat(transport.nowMicros()).isLessThan(deadline);
      transport.await(5_000);
    }
  }
}
