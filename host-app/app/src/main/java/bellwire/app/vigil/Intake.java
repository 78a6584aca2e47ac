package bellwire.app.vigil;

import bellwire.app.job.JobFileException;
import bellwire.link.Message;

/** Takes one kind of vigil's samples into the job file, and finds what is in them as they come. */
interface Intake {

  /**
   * @param offsetMicros from the message's device time to the vigil's
   */
  void take(Message.Data message, long offsetMicros) throws JobFileException;

  /** Nothing more comes, for now. */
  void finish() throws JobFileException;

  /** Before the first sample. */
  long NEVER = Long.MIN_VALUE;

  /** The vigil's time of the last sample; {@link #NEVER} before the first. */
  long lastMicros();

  /** Really watched, gaps left out. */
  long watchedMicros();

  /** What a conductor or lead is at this moment, in a word; may be empty. */
  String now(int at);
}
