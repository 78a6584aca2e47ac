package bellwire.app.vigil;

import bellwire.link.Message;

/** Stores nothing: so nothing is acknowledged, and the board keeps it, unless told otherwise. */
public final class Unstored implements VigilFeed {
  private long messages;
  private long ofVigils;
  private long next;

  @Override
  public void data(
      boolean live, long boot, long sequence, long deviceMicros, Message.Data message) {
    messages++;
    ofVigils += VigilRecorder.number(message) >= VigilOrder.LEAST_NUMBER ? 1 : 0;
  }

  @Override
  public void arrived(long boot, long nextSequence) {
    next = nextSequence;
  }

  @Override
  public void lost(long frames) {}

  /** What came that was not known. */
  public long messages() {
    return messages;
  }

  /** How many of them are of a vigil; the others tell of the board. */
  long ofVigils() {
    return ofVigils;
  }

  /** The first of the present boot's that has not come. */
  public long next() {
    return next;
  }
}
