package bellwire.simbench;

import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/** Seeded benches for tests, made as files so that the reader takes part. */
public final class RandomBenches {
  private RandomBenches() {}

  /** Two to sixteen conductors with whatever may be wrong with them. */
  public static Bench draw(long seed) {
    Random random = new Random(seed);
    return parse(text(seed, 2 + random.nextInt(15), random, ""));
  }

  /** A bench of a size, with further sections. */
  public static Bench of(long seed, int conductors, String more) {
    return parse(text(seed, conductors, new Random(seed), more));
  }

  public static Bench parse(String text) {
    try {
      return BenchFile.parse("test.yaml", text);
    } catch (FileException e) {
      throw new IllegalArgumentException(text, e);
    }
  }

  /** The file of a bench of a size, with further sections. */
  public static String text(long seed, int conductors, String more) {
    return text(seed, conductors, new Random(seed), more);
  }

  private static String text(long seed, int n, Random random, String more) {
    List<Integer> far = new ArrayList<>();
    for (int i = 1; i <= 16; i++) {
      far.add(i);
    }
    Collections.shuffle(far, random);
    StringBuilder text = new StringBuilder();
    text.append("bellwire-bench: 1\nseed: ").append(seed).append("\ncable:\n");
    text.append(
        format(
            "  gauge: %d AWG\n  length: %.2f m\n  temperature: %.1f C\n  conductors:\n",
            14 + 2 * random.nextInt(6), 2 + 58 * random.nextDouble(), 30 * random.nextDouble()));
    for (int i = 1; i <= n; i++) {
      text.append(format("    - {port: P%d, colour: c%d, far: %d}\n", i, i, far.get(i - 1)));
    }
    if (more.isEmpty()) {
      text.append(faults(n, random));
    }
    text.append(
        "far-end: [{from: 0 s, plug: open}, {from: 20 s, plug: coded}, {from: 40 s, plug: tie}]\n");
    return text.append(more).toString();
  }

  private static String faults(int n, Random random) {
    StringBuilder text = new StringBuilder();
    int joint = 1 + random.nextInt(n);
    text.append(
        format(
            "joints: [{conductor: P%d, at: %.3f, ohm: %.3f}]\n",
            joint, random.nextDouble(), random.nextDouble()));
    if (random.nextBoolean()) {
      text.append(
          format(
              "opens: [{conductor: P%d, at: %.3f}]\n", 1 + random.nextInt(n), random.nextDouble()));
    }
    int a = 1 + random.nextInt(n);
    int b = 1 + (a + random.nextInt(n - 1)) % n;
    double ohms = Math.pow(10, -2 + 9 * random.nextDouble());
    text.append(
        format(
            "bridges: [{between: [P%d, P%d], at: %.3f, ohm: %.6g}, {between: [P%d, M], at: 0.5, ohm: %.6g}]\n",
            a, b, random.nextDouble(), ohms, a, 1e6 * (1 + 100 * random.nextDouble())));
    text.append("surroundings: {hum: 5 mV 60 Hz}\n");
    text.append(
        format(
            "metal: {clipped: %b, to: %s}\n",
            random.nextInt(4) > 0, random.nextBoolean() ? "earth" : "drain"));
    return text.toString();
  }

  private static String format(String format, Object... arguments) {
    return String.format(Locale.ROOT, format, arguments);
  }
}
