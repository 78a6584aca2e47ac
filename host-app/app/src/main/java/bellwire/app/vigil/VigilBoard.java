package bellwire.app.vigil;

import bellwire.app.job.Source;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.link.Message;
import java.util.List;
import java.util.OptionalLong;

/** A board that keeps a vigil. What it sees goes to a {@link VigilFeed} while time is let pass. */
public interface VigilBoard extends AutoCloseable {

  /**
   * Greets the agent.
   *
   * @param known how far each of the agent's boots is stored already; the latest first
   */
  Message.Welcome open(List<Source> known) throws InstrumentTrouble;

  /** The number of the vigil that the agent keeps at this moment. */
  OptionalLong underWay() throws InstrumentTrouble;

  /** Clears the interlock, and has the board check itself. */
  void arm() throws InstrumentTrouble;

  /** Begins a vigil. */
  void keep(Message.KeepVigil asked) throws InstrumentTrouble;

  /** A vigil that the agent keeps already, or has kept. */
  void follow(long number);

  /** Lets time pass, until the vigil ends or the agent restarts at most. */
  void await(long micros) throws InstrumentTrouble;

  /** Lets time pass whatever happens, so that what is on its way comes. */
  void linger(long micros) throws InstrumentTrouble;

  /**
   * Lets what the agent was told last go out.
   *
   * @return whether the agent has confirmed that it keeps nothing any more
   */
  boolean part();

  /** All of a boot's messages below a number are safe: the agent may let go of them. */
  void stored(long boot, long nextSequence);

  /** The agent's boot that is on now; 0 before it was greeted. */
  long boot();

  /** Whether the agent has said that the vigil is over. */
  boolean ended();

  /** Whether the agent has restarted, which ends a vigil. */
  boolean restarted();

  /** Whether the link is up. */
  boolean up();

  /** What the agent's own record may still take; 0 where it has none. */
  long diskBytes();

  /** Monotonic microseconds of this end. */
  long nowMicros();

  /** Asks the agent to end the vigil, and gives it a moment. */
  void stop();

  /** Whether the board has let go of cable or control, for all that is known. */
  boolean letGo();

  @Override
  void close();
}
