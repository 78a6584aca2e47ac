package bellwire.agent;

import bellwire.agent.chip.ChipTrouble;
import bellwire.board.BoardDescription;
import bellwire.link.Message.KeepVigil;
import bellwire.link.Message.Run;
import bellwire.link.Message.SenseCalls;
import bellwire.link.ScanStep;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a host asks for is refused in a sentence for people, or taken: then null. */
final class Admission {
  /** What a vigil promises to see is told for this. */
  private static final long MOST_TICK_MICROS = 1000;

  private final BoardDescription description;
  private final Arming arming;
  private final InterlockWatch interlock;
  private final long tickMicros;

  Admission(
      BoardDescription description, Arming arming, InterlockWatch interlock, long tickMicros) {
    this.description = description;
    this.arming = arming;
    this.interlock = interlock;
    this.tickMicros = tickMicros;
  }

  /** Why nothing at all can be begun. */
  @Nullable String now(@Nullable Activity activity, @Nullable ChipTrouble trouble) {
    if (activity != null) {
      return activity.busy();
    } else if (trouble != null) {
      return "the board is in trouble: " + trouble;
    } else if (arming.busy() || !arming.boardReady()) {
      return "the board is being armed or is starting";
    }
    return null;
  }

  @Nullable String run(Run run) {
    String objection = ports(ScanRun.drives(run.steps()));
    return objection != null ? objection : ScanRun.objection(run.steps(), tickMicros);
  }

  @Nullable String senseCalls(SenseCalls sense) {
    return calls(sense.wetting(), sense.loads());
  }

  @Nullable String keepVigil(KeepVigil keep) {
    if (keep.kind() == KeepVigil.Kind.CALLS) {
      return calls(keep.wetting(), keep.loads());
    } else if (keep.wetting() || keep.loads() != 0) {
      return "call wetting and dummy loads are of a calls vigil only";
    }
    String objection = ports(true);
    if (objection != null) {
      return objection;
    }
    return switch (keep.kind()) {
      case CONTINUITY -> continuity(keep.ports(), keep.returned());
      case TOUCH -> touch(keep.ports());
      case TREND -> trend(keep.steps());
      case CALLS -> null;
    };
  }

  private @Nullable String calls(boolean wetting, int loads) {
    return CallWatch.objection(wetting, loads, description, tickMicros, interlock.outside());
  }

  private @Nullable String ports(boolean drives) {
    if (arming.failed()) {
      return arming.selfCheck();
    } else if (drives && !interlock.clear()) {
      return "the interlock is not clear: nothing may be connected or driven";
    } else if (drives && !arming.selfCheck().isEmpty()) {
      return "self-check " + arming.selfCheck();
    }
    return null;
  }

  private @Nullable String continuity(int ports, int returned) {
    if (Integer.bitCount(ports) < 2) {
      return "a continuity vigil takes two conductors at least, one for the way back: conductors="
          + Integer.bitCount(ports);
    } else if ((ports >>> returned & 1) == 0) {
      return "no conductor on the port for the way back: returned=P" + (returned + 1);
    }
    return tick();
  }

  private @Nullable String touch(int ports) {
    if (Integer.bitCount(ports) < 2) {
      return "a touch vigil takes two conductors at least: conductors=" + Integer.bitCount(ports);
    }
    return tick();
  }

  private @Nullable String trend(List<ScanStep> steps) {
    if (!ScanRun.drives(steps)) {
      return "no step of the trend drives a port";
    }
    return ScanRun.objection(steps, tickMicros);
  }

  private @Nullable String tick() {
    if (tickMicros <= MOST_TICK_MICROS) {
      return null;
    }
    return "the agent's tick is too long for a vigil: set tick-micros to "
        + MOST_TICK_MICROS
        + " or less, tick-micros="
        + tickMicros;
  }
}
