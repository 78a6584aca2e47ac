package bellwire.simbench;

/**
 * The simulated bench's time: nanoseconds since its start, moved on by whoever runs it and never by
 * itself.
 */
public final class VirtualClock {
  private long nanos;

  public long nanos() {
    return nanos;
  }

  public long micros() {
    return nanos / 1000;
  }

  public void advanceTo(long nanos) {
    if (nanos < this.nanos) {
      throw new IllegalArgumentException("nanos=" + nanos + " before " + this.nanos);
    }
    this.nanos = nanos;
  }
}
