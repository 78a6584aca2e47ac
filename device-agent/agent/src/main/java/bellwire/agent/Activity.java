package bellwire.agent;

import bellwire.agent.chip.ChipTrouble;
import bellwire.link.Message.Ended.Outcome;
import org.jspecify.annotations.Nullable;

/**
 * What the agent does for a host over many steps: a program, a watch, a vigil. There is one at a
 * time. The agent makes the board safe before it closes one.
 */
interface Activity {

  /** How it came to its end. */
  record End(Outcome outcome, String reason) {}

  /** What it is, for a request that comes while it lasts. */
  String busy();

  /**
   * Whether it joins, drives or wets ports. Such a one is advanced only in steps that have read the
   * interlock as clear, and ends when the latch is set.
   */
  boolean drives();

  /** Takes it up; its request is answered now or, by {@link #close} at the latest, later. */
  void begin(long nowMicros) throws ChipTrouble;

  /**
   * What must not wait for the rest of the step; only the interlock has been read.
   *
   * @param dueMicros when the step should have begun
   * @param clear whether this step has read the interlock as clear
   */
  default void sample(long nowMicros, long dueMicros, boolean clear) throws ChipTrouble {}

  /** The relays have stayed closed until then, since they closed or were lost last. */
  default void relaysStayed(long untilMicros) {}

  /** The watchdog has let the relays go: the heartbeat came too late. They close again in time. */
  default void relaysDropped(long nowMicros) {}

  /**
   * Goes on as far as it can without waiting.
   *
   * @return its end, where it has come to one
   */
  @Nullable End advance(long nowMicros, InterlockWatch interlock) throws ChipTrouble;

  /**
   * Leaves out what is still to do; {@link #advance} lets go in good order, then tells this end.
   */
  void finish(End end);

  /** Hands over what it has, and tells of its end. The board is safe, as far as it would be. */
  void close(End end, long nowMicros);
}
