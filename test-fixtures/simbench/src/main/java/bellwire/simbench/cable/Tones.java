package bellwire.simbench.cable;

import bellwire.simbench.file.Bench;
import java.util.ArrayList;
import java.util.List;

/** The frequencies of a bench's sources; all share one drawn error, as all hang on one grid. */
final class Tones {
  private static final double FREQUENCY_SPREAD = 1e-3;

  private final List<Double> nominalHertz = new ArrayList<>();
  private final double scale;

  Tones(Bench bench, Draws draws) {
    Bench.Surroundings s = bench.surroundings();
    if (s.humVolts() > 0) {
      add(s.humHertz());
    }
    if (s.mains().volts() > 0 && s.mains().faradsEach() > 0) {
      add(s.mains().hertz());
    }
    s.foreign().forEach(f -> add(f.hertz()));
    s.induced().forEach(i -> add(i.hertz()));
    scale = 1 + draws.symmetric(FREQUENCY_SPREAD, "frequency");
  }

  private void add(double hertz) {
    if (hertz > 0 && !nominalHertz.contains(hertz)) {
      nominalHertz.add(hertz);
    }
  }

  int index(double hertz) {
    return nominalHertz.indexOf(hertz);
  }

  double[] omegas() {
    return nominalHertz.stream().mapToDouble(f -> 2 * Math.PI * f * scale).toArray();
  }
}
