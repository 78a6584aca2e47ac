package bellwire.app.vigil;

import bellwire.app.survey.InstrumentTrouble;
import bellwire.link.Message;

/** Takes what a board that keeps a vigil has sent, in order. */
public interface VigilFeed {

  /**
   * A data message.
   *
   * @param boot the agent's that made it; an earlier one than now's where it was recorded then
   * @param sequence its number in that boot
   * @param deviceMicros that boot's clock
   */
  void data(long boot, long sequence, long deviceMicros, Message.Data message)
      throws InstrumentTrouble;

  /** All of a boot's messages below a number have been handed over, or won't come. */
  void arrived(long boot, long nextSequence) throws InstrumentTrouble;

  /** Messages that won't come any more: the agent had no room to keep them. */
  void lost(long frames);
}
