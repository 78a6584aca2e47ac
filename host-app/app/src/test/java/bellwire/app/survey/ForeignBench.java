package bellwire.app.survey;

import bellwire.analysis.survey.Ports;
import java.util.Locale;
import java.util.Random;
import java.util.Set;

/**
 * A drawn cable with a foreign source between two terminals, M and empty ports among them.
 *
 * @param a first port, positive for DC
 * @param hertz 0 for DC
 * @param ohms in series with the source
 */
record ForeignBench(
    RandomCable cable, int a, int b, double volts, int hertz, double ohms, long fromMicros) {
  static final double CODED_SECONDS = 27;
  static final double TIE_SECONDS = 42;

  /** The cable with nothing live on it. */
  static String healthy(RandomCable cable) {
    return cable.yaml(CODED_SECONDS, TIE_SECONDS);
  }

  /** 26 V AC of either mains frequency, or 5 V DC. */
  static ForeignBench draw(Random random, RandomCable cable, long fromMicros) {
    int a = random.nextInt(Ports.COUNT);
    int b = (a + 1 + random.nextInt(Ports.COUNT - 1)) % Ports.COUNT;
    int hertz = random.nextBoolean() ? 0 : random.nextBoolean() ? 50 : 60;
    double ohms = 0.5 * Math.pow(20, random.nextDouble());
    return new ForeignBench(cable, a, b, hertz == 0 ? 5 : 26, hertz, ohms, fromMicros);
  }

  String yaml() {
    return with(healthy(cable), foreign());
  }

  String foreign() {
    return String.format(
        Locale.ROOT,
        "foreign: [{between: [%s, %s], volts: %.3f, hz: %d, ohm: %.3f, from: %.6f s}]",
        Ports.name(a),
        Ports.name(b),
        volts,
        hertz,
        ohms,
        fromMicros * 1e-6);
  }

  /** A bench with something more in its surroundings. */
  static String with(String yaml, String more) {
    String marker = "surroundings: {";
    if (!yaml.contains(marker)) {
      throw new IllegalArgumentException("no surroundings");
    }
    return yaml.replace(marker, marker + more + ", ");
  }

  Set<Integer> ports() {
    return Set.of(a, b);
  }

  String kind() {
    return hertz == 0 ? "5 V DC" : "26 V AC";
  }

  @Override
  public String toString() {
    return foreign() + " on " + cable;
  }
}
