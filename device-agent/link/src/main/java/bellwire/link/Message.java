package bellwire.link;

import java.util.List;

/**
 * Everything that crosses the link. docs/link.cddl is the schema; {@code MessageCodec} the only
 * writer and reader.
 */
public sealed interface Message {

  /**
   * From host to agent. Requests carry an identifier; a request repeated with the same identifier
   * is done once.
   */
  sealed interface FromHost extends Message {}

  /** From agent to host, at once: lost with a pulled plug, and asked for again. */
  sealed interface FromAgent extends Message {}

  /** From agent to host in a numbered data frame, kept until acknowledged. */
  sealed interface Data extends Message {}

  /**
   * Opens a conversation, or resumes one.
   *
   * @param protocol version the host speaks
   * @param bootId the agent's boot that the host knows, 0 for none
   * @param nextSequence first data frame the host has not yet got from that boot
   * @param stores it acknowledges what it has stored: only to such a host the agent hands over what
   *     it has recorded, and only such a one can have it let go
   */
  record Greet(int protocol, long bootId, long nextSequence, boolean stores) implements FromHost {}

  /**
   * How far the data frames have come.
   *
   * @param nextSequence all below it are safe with the host: the agent lets them go
   * @param received all below it have arrived: not sent again unless asked for; never below
   *     nextSequence
   */
  record Acknowledge(long nextSequence, long received) implements FromHost {
    public Acknowledge {
      if (received < nextSequence) {
        throw new IllegalArgumentException(
            "received=" + received + " nextSequence=" + nextSequence);
      }
    }
  }

  /**
   * Clear the interlock's latch, if no port is outside the window. The first one also runs the
   * board's self-check; its Reply comes when that has ended, and accepted means armed and checked.
   */
  record Arm(long request) implements FromHost {}

  /**
   * Carry out the steps in order. Refused while a program runs, or where a step drives and the
   * interlock is not clear.
   */
  record Run(long request, long program, List<ScanStep> steps) implements FromHost {
    public static final int MAX_STEPS = 1024;

    public Run {
      steps = List.copyOf(steps);
      if (steps.isEmpty() || steps.size() > MAX_STEPS) {
        throw new IllegalArgumentException("steps=" + steps.size());
      }
    }
  }

  /**
   * Watch the leads of the call-sense connector until a {@link Stop}; the words come as {@link
   * CallSamples}, and {@link Ended} closes the watch as it closes a program, from whose numbers its
   * own is taken. Refused while a program or a watch runs. With wetting the answer comes after 100
   * ms: refused where a lead had voltage in that time.
   *
   * @param wetting switch the limited 5 V supply onto XW: for dry contacts only
   * @param loads leads whose dummy load is switched on, bit 0 for X1 to bit 15 for X16; none with
   *     wetting
   */
  record SenseCalls(long request, long watch, boolean wetting, int loads) implements FromHost {
    public static final int LEADS = 16;
  }

  /**
   * Keep watch for intermittent faults until a {@link Stop}, or for a length of time; with or
   * without a host. What is seen is recorded on the agent's own disk too, and kept there until
   * acknowledged. {@link Ended} closes it. Refused while a program, a watch or a vigil runs, and,
   * but for the calls, where the interlock is not clear.
   *
   * @param vigil its number, at random, above 0: a host that comes back knows it by that
   * @param kind what is watched, and what comes: CONTINUITY and TOUCH {@link EventSamples}, TREND
   *     {@link Samples}, CALLS {@link CallSamples}, each under the vigil's number
   * @param ports that have a conductor, bit 0 for P1; CALLS: leads, bit 0 for X1
   * @param returned CONTINUITY: the port from 0 that the others' current comes back through; else 0
   * @param wetting as in {@link SenseCalls}; CALLS only
   * @param loads as in {@link SenseCalls}; CALLS only
   * @param lengthMicros after which it ends by itself, {@link #MOST_MICROS} at most
   * @param steps TREND: carried out round after round; else none
   */
  record KeepVigil(
      long request,
      long vigil,
      Kind kind,
      int ports,
      int returned,
      boolean wetting,
      int loads,
      long lengthMicros,
      List<ScanStep> steps)
      implements FromHost {

    /** What is watched. */
    public enum Kind {
      /** Far ends tied together or in a plug: every opening. */
      CONTINUITY,
      /** Far ends open: every touch of two conductors, or of one and the metal. */
      TOUCH,
      /** Resistances, one after the other. */
      TREND,
      /** The call-sense connector. */
      CALLS
    }

    /** Eight days. */
    public static final long MOST_MICROS = 8L * 24 * 3_600_000_000L;

    public KeepVigil {
      steps = List.copyOf(steps);
      if (steps.size() > Run.MAX_STEPS || (kind == Kind.TREND) == steps.isEmpty()) {
        throw new IllegalArgumentException("kind=" + kind + " steps=" + steps.size());
      }
    }
  }

  /** Stop the running program, watch or vigil; open the relays. */
  record Stop(long request) implements FromHost {}

  /** Ask for {@link Alive}; sent each second so that both ends notice a dead link. */
  record Ping(long request) implements FromHost {}

  /**
   * The agent's answer to {@link Greet}.
   *
   * @param bootId drawn at the agent's start
   * @param oldestSequence oldest data frame still kept; above the host's next one, frames are lost
   *     and the host says so
   * @param nextSequence number of the next new data frame
   * @param revision of the sensing board
   * @param selfCheck empty when the board passed, otherwise why it refuses to measure; before the
   *     first Arm, that the check has not yet run
   * @param baud rate that the streaming programs need
   * @param deviceMicros the agent's clock, as in data frames, as this was made
   */
  record Welcome(
      int protocol,
      String agentVersion,
      String revision,
      long bootId,
      long oldestSequence,
      long nextSequence,
      String selfCheck,
      int baud,
      long deviceMicros)
      implements FromAgent {}

  /** Whether a request was taken, and if not why, in a sentence for people. */
  record Reply(long request, boolean accepted, String reason) implements FromAgent {}

  /**
   * The answer to a {@link Ping}.
   *
   * @param vigil the number of the one under way, 0 for none
   * @param diskBytes what the agent's own record may still take, 0 where it has none
   */
  record Alive(long request, Interlock interlock, long vigil, long diskBytes)
      implements FromAgent {}

  /** A message of a kind this end does not know. */
  record NotUnderstood(int type) implements FromAgent, FromHost {}

  /**
   * The interlock as the board reports it.
   *
   * @param tripped the latch is set: relays open, excitation off
   * @param outsideNow a port is outside the window at this moment
   * @param flags ports that were outside the window since the last re-arm
   */
  record Interlock(boolean tripped, boolean outsideNow, int flags) {}

  /**
   * Conversions in the order taken, arrays of one length.
   *
   * @param program the program they belong to
   * @param step index of the step in that program
   * @param code raw converter code, signed 24 bit
   * @param deviceMicros when the conversion ended
   * @param chain crosspoint word in force, as latched
   * @param setup converter's input pair, gain and rate registers: positive input << 24 | negative
   *     input << 16 | gain code << 8 | rate code
   * @param flags bit 0: an input overloaded; bit 1: a conversion was missed before this one; bit 2:
   *     relays were not closed as asked
   */
  record Samples(
      long program,
      int[] step,
      int[] code,
      long[] deviceMicros,
      long[] chain,
      int[] setup,
      int[] flags)
      implements Data {
    public static final int OVERLOAD = 1;
    public static final int MISSED = 2;
    public static final int NOT_CONNECTED = 4;
  }

  /**
   * Words of the call-sense connector in the order read, arrays of one length. Nothing is left out
   * or made even: the step of a tick that came late stands here with the time it had.
   *
   * @param watch the watch they belong to
   * @param firstMicros device time at which the first sample's step began
   * @param deltaMicros from the sample before; 0 for the first
   * @param lateMicros how long after it was due the sample's step began, {@link #SATURATED} for
   *     that or longer
   * @param tookMicros from the step's begin until the word had been read, {@link #SATURATED} for
   *     that or longer: such a word is of no known time
   * @param word a one for a lead with voltage, bit 0 for X1 to bit 15 for X16
   */
  record CallSamples(
      long watch,
      long firstMicros,
      int[] deltaMicros,
      int[] lateMicros,
      int[] tookMicros,
      int[] word)
      implements Data {
    /** The longest time that a sample's fields hold. */
    public static final int SATURATED = 65_535;
  }

  /**
   * What the event path saw, as runs of readings alike, one reading each tick; arrays of one
   * length. A bit is one where something is wrong: in a continuity vigil an open conductor, in a
   * touch vigil a driven one that another holds down.
   *
   * @param firstMicros device time of the first run's first reading
   * @param deltaMicros from the first reading of the run before; 0 for the first
   * @param ticks readings in the run, 1 to 65535, a tick apart each; a new run begins where one
   *     came more than half a tick late
   * @param word bits at each of the readings, bit 0 for P1
   * @param latched bits that were a one at any time since the reading before; of each reading
   * @param code TOUCH: number of the group pattern in force before the run's first reading, going
   *     on by one each reading, round and round; else 0
   */
  record EventSamples(
      long vigil,
      long firstMicros,
      long[] deltaMicros,
      int[] ticks,
      int[] word,
      int[] latched,
      int[] code)
      implements Data {}

  /**
   * A data frame of an earlier boot, recorded then and not acknowledged.
   *
   * @param boot its identifier
   * @param sequence the frame's number in that boot
   * @param deviceMicros the frame's time, of that boot's clock
   * @param message never itself a Recorded
   * @param lost recorded frames of that boot directly before this one that are gone: the disk was
   *     full, or they can't be read
   * @param left recorded frames of all earlier boots still to come, 0 in the last
   */
  record Recorded(long boot, long sequence, long deviceMicros, Data message, long lost, long left)
      implements Data {
    public Recorded {
      if (message instanceof Recorded) {
        throw new IllegalArgumentException("recorded twice: sequence=" + sequence);
      }
      if (lost < 0 || lost > sequence || left < 0) {
        throw new IllegalArgumentException(
            "lost=" + lost + " sequence=" + sequence + " left=" + left);
      }
    }
  }

  /** The last message of a program, a watch or a vigil. */
  record Ended(long program, Outcome outcome, String reason) implements Data {
    public enum Outcome {
      DONE,
      STOPPED,
      INTERLOCK,
      TROUBLE,
      /**
       * The agent was held up, the board's watchdog opened the relays on charged conductors, and
       * the interlock tripped. Whether that was the charge shows once the host arms again.
       */
      HELD_UP
    }
  }

  /** The interlock's latch or its live state changed. */
  record InterlockChanged(Interlock interlock) implements Data {}

  /**
   * A chip or the board is in trouble; measuring is refused until it is mended. Of the agent's own
   * {@link #RECORD} it is told too, which keeps nothing from going on.
   */
  record Trouble(String chip, String reason) implements Data {
    public static final String RECORD = "record";
  }
}
