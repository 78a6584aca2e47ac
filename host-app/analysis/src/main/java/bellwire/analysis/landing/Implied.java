package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;

import bellwire.analysis.findings.Symptom;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;

/** Symptoms that people seldom tell of beside a greater one. */
final class Implied {
  private static final Map<Symptom, Set<Symptom>> BY =
      Map.of(
          NOTHING_WORKS,
          EnumSet.of(
              NO_HEAT, NO_COOLING, NO_FAN, NO_AUXILIARY_HEAT, NO_EMERGENCY_HEAT, NO_ACCESSORY),
          CONTROL_BLANK,
          EnumSet.of(NOTHING_WORKS, BLANK_ON_HEAT, BLANK_ON_COOLING),
          FUSE_OPENS_AT_ONCE,
          EnumSet.of(
              NOTHING_WORKS,
              CONTROL_BLANK,
              FUSE_OPENS_ON_HEAT,
              FUSE_OPENS_ON_COOLING,
              FUSE_OPENS_ON_FAN),
          FUSE_OPENS_ON_HEAT,
          EnumSet.of(BLANK_ON_HEAT, NO_HEAT, NO_AUXILIARY_HEAT, NO_EMERGENCY_HEAT),
          FUSE_OPENS_ON_COOLING,
          EnumSet.of(BLANK_ON_COOLING, NO_COOLING),
          FUSE_OPENS_ON_FAN,
          EnumSet.of(NO_FAN),
          HEAT_ALWAYS_ON,
          EnumSet.of(HEAT_ON_FAN, HEATS_ON_COOLING, HEATS_AND_COOLS, AUXILIARY_HEAT_TOO_SOON),
          OUTDOOR_UNIT_ALWAYS_ON,
          EnumSet.of(
              OUTDOOR_UNIT_ON_FAN,
              OUTDOOR_UNIT_ON_HEAT,
              COOLS_ON_HEAT,
              HEATS_AND_COOLS,
              OUTDOOR_UNIT_IN_EMERGENCY),
          FAN_ALWAYS_ON,
          EnumSet.of(ONLY_FAN_ON_HEAT, ONLY_FAN_ON_COOLING),
          TRANSFORMER_HOT,
          EnumSet.of(TRANSFORMER_HOT_ON_CALL));

  private Implied() {}

  /** Those that any of the symptoms implies; bit n: symptom n. */
  static long by(long symptoms) {
    long implied = 0;
    for (Map.Entry<Symptom, Set<Symptom>> e : BY.entrySet()) {
      if ((symptoms & 1L << e.getKey().ordinal()) != 0) {
        implied |= Symptoms.bits(e.getValue());
      }
    }
    return implied;
  }

  /** Those of the symptoms that another of them implies. */
  static Set<Symptom> by(Set<Symptom> symptoms) {
    Set<Symptom> implied = EnumSet.noneOf(Symptom.class);
    BY.forEach(
        (greater, lesser) -> {
          if (symptoms.contains(greater)) {
            implied.addAll(lesser);
          }
        });
    implied.retainAll(symptoms);
    return implied;
  }
}
