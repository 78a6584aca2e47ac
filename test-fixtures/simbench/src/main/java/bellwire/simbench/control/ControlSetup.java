package bellwire.simbench.control;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A control as it is built and set up. All figures are common practice, no source. Its own times
 * run on its own clock: each takes {@code 1 + clockError} of what is written here.
 *
 * @param supplies what feeds its terminals: none for a dry contact, two for TWO_SUPPLIES (RH, then
 *     RC), one for the others
 * @param valveRests whether the valve stays as the mode has it between calls, rather than coming
 *     and going with each
 * @param clockError relative; positive is slow
 * @param driftKelvinPerHour how fast the room warms by itself
 * @param faults what is wrong with it
 */
public record ControlSetup(
    Kind kind,
    Timing timing,
    Contacts contacts,
    Feed feed,
    List<Supply> supplies,
    boolean valveRests,
    double clockError,
    double driftKelvinPerHour,
    List<Fault> faults) {

  /** Largest error of a control's clock. */
  public static final double MAX_CLOCK_ERROR = 0.005;

  /** The most that a room drifts. */
  public static final double MAX_DRIFT_KELVIN_PER_HOUR = 10;

  public ControlSetup {
    supplies = List.copyOf(supplies);
    faults = List.copyOf(faults);
    int needed = supplies(kind);
    if (supplies.size() != needed) {
      throw new IllegalArgumentException(
          kind + " takes " + needed + " supplies: supplies=" + supplies.size());
    }
    if (kind == Kind.BOILER_DRY && contacts.kind() != ContactKind.RELAY) {
      throw new IllegalArgumentException("a dry contact is a relay's: contacts=" + contacts.kind());
    }
    for (Fault fault : faults) {
      if (!fault.defect().canShow(kind)) {
        throw new IllegalArgumentException(kind + " has no such defect: defect=" + fault.defect());
      }
      if (!kind.terminals().contains(fault.terminal())) {
        throw new IllegalArgumentException(
            kind + " has no such terminal: terminal=" + fault.terminal());
      }
    }
  }

  /**
   * Its times, seconds of its own clock.
   *
   * @param responseSeconds from an operation to the call it asks for
   * @param dropOutSeconds from an operation to the end of a call
   * @param stageSeconds from the first stage's closing, or from the demand, to the second stage or
   *     auxiliary heat
   * @param stageFromDemand whether that counts from the demand where it comes later
   * @param restSeconds of the compressor, from Y1's opening to its closing
   * @param minimumOnSeconds of the compressor; holds Y1 but against emergency heat
   * @param overrunSeconds G's, after the call that brought it
   * @param changeoverSeconds from Y1's opening to W1's closing and the reverse, where they must not
   *     meet
   * @param fanLeadSeconds G ahead of the call that brings it; negative is behind
   * @param valveLeadSeconds the valve ahead of Y1
   */
  public record Timing(
      double responseSeconds,
      double dropOutSeconds,
      double stageSeconds,
      boolean stageFromDemand,
      double restSeconds,
      double minimumOnSeconds,
      double overrunSeconds,
      double changeoverSeconds,
      double fanLeadSeconds,
      double valveLeadSeconds) {}

  /** What its outputs are made of. */
  public enum ContactKind {
    /** Bounces; its open contact passes nothing. */
    RELAY,
    /** Switches at its supply's zero crossings and leaks when off. */
    SEMICONDUCTOR
  }

  /**
   * Its outputs.
   *
   * @param operateMillis a relay's, from command to first touch; drawn from half of it on
   * @param releaseMillis a relay's, from command to first parting; drawn likewise
   * @param bounceMillis longest bounce at closing, from the first touch; at opening a seventh
   * @param leakShare of the supply's volts on an open terminal without its dummy load
   * @param loadedLeakShare the same with it
   */
  public record Contacts(
      ContactKind kind,
      double operateMillis,
      double releaseMillis,
      double bounceMillis,
      double leakShare,
      double loadedLeakShare) {}

  /** Where a control's own power comes from. */
  public enum PowerSource {
    /** Keeps its timers when the transformer is off; opens its contacts when it misses R. */
    BATTERY,
    /** From R and C: starts anew when they return. */
    COMMON
  }

  /**
   * How it takes a loss of power.
   *
   * @param bootSeconds from the return to the first call, its own clock's
   * @param holdUpMillis from the loss to the opening of its contacts
   * @param restRestarts whether the rest counts from the return, rather than from Y1's opening
   */
  public record Feed(
      PowerSource source, double bootSeconds, double holdUpMillis, boolean restRestarts) {}

  /**
   * A transformer.
   *
   * @param volts rms without load
   * @param phaseDegrees of its cosine at time 0
   * @param sagPerCall relative loss of voltage by each terminal that is on
   */
  public record Supply(double volts, double hertz, double phaseDegrees, double sagPerCall) {

    /**
     * Its voltage at a moment.
     *
     * @param share of the whole amplitude
     * @param leadDegrees ahead of its own phase
     */
    double volts(long nanos, double share, double leadDegrees) {
      double turns = hertz * nanos * 1e-9 + (phaseDegrees + leadDegrees) / 360;
      return Math.sqrt(2) * volts * share * Math.cos(2 * Math.PI * (turns - Math.rint(turns)));
    }

    /** The first zero crossing after a moment, nanoseconds. */
    long zeroAfter(long nanos) {
      double halfTurns = 2 * (hertz * nanos * 1e-9 + phaseDegrees / 360);
      double next = Math.floor(halfTurns - 0.5) + 1.5;
      long ahead = Math.round((next - halfTurns) / (2 * hertz) * 1e9);
      return nanos + Math.max(1, ahead);
    }
  }

  /**
   * A defect as this control has it.
   *
   * @param terminal the one concerned
   * @param seconds by defect: how late, how long it chatters, how soon after the power's return, W1
   *     behind Y1 or Y1 beyond W1; 0 where there is nothing to say
   */
  public record Fault(Defect defect, String terminal, double seconds) {
    public Fault {
      if (!(seconds >= 0 && seconds <= 3600)) {
        throw new IllegalArgumentException("no length of a defect: seconds=" + seconds);
      }
    }

    /** A defect of middling size on the first terminal that can have it. */
    public static Fault typical(Kind kind, Defect defect) {
      return SetupDraw.typical(kind, defect);
    }
  }

  /** A plain healthy control on relays, powered through C, its clock exact. */
  public static ControlSetup healthy(Kind kind) {
    Supply supply = new Supply(24, 60, 0, 0.01);
    List<Supply> supplies = new ArrayList<>();
    for (int i = 0; i < supplies(kind); i++) {
      supplies.add(i == 0 ? supply : new Supply(25, 60, 120, 0.01));
    }
    return new ControlSetup(
        kind,
        new Timing(1, 0.3, 60, false, 302, 0, 30, 1, 0.1, 0.2),
        new Contacts(ContactKind.RELAY, 8, 5, 1, 0, 0),
        new Feed(PowerSource.COMMON, 2, 50, true),
        supplies,
        false,
        0,
        0,
        List.of());
  }

  /** A healthy control with everything drawn that may differ between healthy ones. */
  public static ControlSetup draw(Kind kind, SplittableRandom random) {
    return SetupDraw.healthy(kind, random);
  }

  /**
   * The same control with a defect more, drawn so that it shows itself when every function is gone
   * through.
   *
   * @throws IllegalArgumentException where the kind cannot have it
   */
  public ControlSetup with(Defect defect, SplittableRandom random) {
    if (!defect.canShow(kind)) {
      throw new IllegalArgumentException(kind + " has no such defect: defect=" + defect);
    }
    List<Fault> more = new ArrayList<>(faults);
    more.add(SetupDraw.fault(kind, defect, random));
    return new ControlSetup(
        kind, timing, contacts, feed, supplies, valveRests, clockError, driftKelvinPerHour, more);
  }

  boolean has(Defect defect) {
    return faults.stream().anyMatch(fault -> fault.defect() == defect);
  }

  /** The size of a defect's first fault, 0 without one. */
  double seconds(Defect defect) {
    return faults.stream()
        .filter(fault -> fault.defect() == defect)
        .mapToDouble(Fault::seconds)
        .findFirst()
        .orElse(0);
  }

  /** Which supply feeds a terminal. */
  Supply supply(String terminal) {
    return supplies.get(supplyIndex(terminal));
  }

  int supplyIndex(String terminal) {
    return supplies.size() > 1 && !terminal.startsWith("W") ? 1 : 0;
  }

  /** How many transformers feed a kind. */
  public static int supplies(Kind kind) {
    return switch (kind) {
      case BOILER_DRY -> 0;
      case TWO_SUPPLIES -> 2;
      default -> 1;
    };
  }
}
