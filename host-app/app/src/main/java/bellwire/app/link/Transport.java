package bellwire.app.link;

import bellwire.link.ByteChannel;

/**
 * A byte pipe to an agent together with the time that passes on it: a serial device and the
 * computer's clock, or a simulated bench.
 */
public interface Transport extends ByteChannel, AutoCloseable {

  /** Monotonic microseconds from an arbitrary origin. */
  long nowMicros();

  /** Lets time pass until bytes have arrived, {@code micros} at most. */
  void await(long micros);

  /** Whether the device is gone at present; it may come back by itself. */
  default boolean away() {
    return false;
  }

  /** In words, for messages. */
  String name();

  @Override
  void close();
}
