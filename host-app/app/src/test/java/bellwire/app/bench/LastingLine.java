package bellwire.app.bench;

import bellwire.simbench.SimulatedDevice;

/** The line of a device that outlives its host. */
public final class LastingLine extends WrappedLine {
  public LastingLine(SimulatedDevice device) {
    super(BenchTransport.of(device));
  }

  @Override
  public void close() {}
}
