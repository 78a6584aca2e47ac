package bellwire.app.vigil;

import bellwire.app.survey.InstrumentTrouble;
import bellwire.link.Message;

/** Takes what a board that keeps a vigil has sent, in order. */
public interface VigilFeed {

  /** The boot that is on, and its clock as it said so; before any data of it. */
  default void welcomed(long boot, long deviceMicros) {}

  /**
   * A data message.
   *
   * @param live whether the boot that made it is on; else it was recorded then
   * @param boot that made it
   * @param sequence its number in that boot
   * @param deviceMicros that boot's clock
   */
  void data(boolean live, long boot, long sequence, long deviceMicros, Message.Data message)
      throws InstrumentTrouble;

  /** All of a boot's messages below a number have been handed over, or won't come. */
  void arrived(long boot, long nextSequence) throws InstrumentTrouble;

  /** Messages that won't come any more: the agent had no room to keep them. */
  void lost(long frames);
}
