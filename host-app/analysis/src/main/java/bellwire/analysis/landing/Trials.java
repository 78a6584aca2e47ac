package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control.Mode;
import bellwire.analysis.loop.Control.State;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;

/**
 * In which states of the control a symptom is tried, and in which none may be tried or measured any
 * more. States are bits: n for the control's n-th.
 */
final class Trials {
  /** Power on with the cable lifted at the control. */
  static final long LIFTED = 1L << 62;

  /** Symptoms of which it is only asked whether they were met: trying does harm. */
  private static final Set<Symptom> HARMFUL =
      EnumSet.of(
          Symptom.FUSE_OPENS_AT_ONCE,
          Symptom.FUSE_OPENS_ON_HEAT,
          Symptom.FUSE_OPENS_ON_COOLING,
          Symptom.FUSE_OPENS_ON_FAN,
          Symptom.TRANSFORMER_HOT,
          Symptom.TRANSFORMER_HOT_ON_CALL,
          Symptom.HEATS_AND_COOLS,
          Symptom.CHATTERS);

  private Trials() {}

  static boolean harmful(Symptom symptom) {
    return HARMFUL.contains(symptom);
  }

  /** Whether it shows without any call, at a look. */
  static boolean atRest(Symptom symptom) {
    return switch (symptom) {
      case CONTROL_BLANK,
          FAN_ALWAYS_ON,
          OUTDOOR_UNIT_ALWAYS_ON,
          HEAT_ALWAYS_ON,
          ACCESSORY_ALWAYS_ON ->
          true;
      default -> false;
    };
  }

  /** States in which a symptom is tried; none for one that is only asked for. */
  static long of(Symptom symptom, List<State> states) {
    return harmful(symptom) ? 0 : bits(states, tried(symptom));
  }

  private static Predicate<State> tried(Symptom symptom) {
    return switch (symptom) {
      case NO_COOLING,
          BLANK_ON_COOLING,
          ONLY_FAN_ON_COOLING,
          NO_FAN_ON_COOLING,
          HEATS_ON_COOLING,
          NO_SECOND_STAGE_OF_COOLING,
          SECOND_STAGE_OF_COOLING_AT_ONCE ->
          s -> s.call().cools();
      case NO_FAN, HEAT_ON_FAN, OUTDOOR_UNIT_ON_FAN -> s -> s.call() == Call.FAN;
      case NO_EMERGENCY_HEAT, NO_SECOND_STAGE_IN_EMERGENCY, OUTDOOR_UNIT_IN_EMERGENCY ->
          s -> s.mode() == Mode.EMERGENCY;
      case NOTHING_WORKS, HUMS, NO_ACCESSORY -> s -> s.call() != Call.NONE;
      default ->
          atRest(symptom) ? s -> s.call() == Call.NONE : s -> s.call() != Call.NONE && heats(s);
    };
  }

  private static boolean heats(State state) {
    return state.call().heats();
  }

  /**
   * States in which nothing is tried or measured, whatever is thought possible: they have opened a
   * fuse or heated a transformer before, or a blank control can't be set to them.
   *
   * @param met symptoms, as bits
   */
  static long barred(long met, List<State> states) {
    long barred = 0;
    for (Symptom symptom : Symptom.values()) {
      if ((met & 1L << symptom.ordinal()) != 0) {
        barred |= barred(symptom, states);
      }
    }
    return barred;
  }

  private static long barred(Symptom symptom, List<State> states) {
    return switch (symptom) {
      case FUSE_OPENS_AT_ONCE, TRANSFORMER_HOT -> -1;
      case TRANSFORMER_HOT_ON_CALL, CONTROL_BLANK -> bits(states, s -> s.call() != Call.NONE);
      case FUSE_OPENS_ON_COOLING -> bits(states, s -> s.mode() == Mode.COOL);
      case FUSE_OPENS_ON_HEAT ->
          bits(states, s -> s.mode() == Mode.HEAT || s.mode() == Mode.EMERGENCY);
      case FUSE_OPENS_ON_FAN -> bits(states, s -> s.call() == Call.FAN || s.call().cools());
      default -> 0;
    };
  }

  private static long bits(List<State> states, Predicate<State> which) {
    long bits = 0;
    for (int k = 0; k < states.size(); k++) {
      bits |= which.test(states.get(k)) ? 1L << k : 0;
    }
    return bits;
  }

  /**
   * What need not be asked for any more: told of or denied, or as good as told by a greater one.
   */
  static long known(long met, long denied) {
    long known = met;
    for (long before = -1; before != known; ) {
      before = known;
      known |= Implied.by(known);
    }
    return known | denied;
  }
}
