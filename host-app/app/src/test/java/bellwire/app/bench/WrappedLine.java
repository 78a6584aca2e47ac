package bellwire.app.bench;

import bellwire.app.link.Transport;

/** The simulated bench's line, for a test to do something to it. */
public class WrappedLine implements Transport {
  protected final Transport line;

  protected WrappedLine(Transport line) {
    this.line = line;
  }

  @Override
  public int read(byte[] into) {
    return line.read(into);
  }

  @Override
  public void write(byte[] bytes, int off, int len) {
    line.write(bytes, off, len);
  }

  @Override
  public long nowMicros() {
    return line.nowMicros();
  }

  @Override
  public void await(long micros) {
    line.await(micros);
  }

  @Override
  public boolean away() {
    return false;
  }

  @Override
  public String name() {
    return "the line";
  }

  @Override
  public void close() {
    line.close();
  }
}
