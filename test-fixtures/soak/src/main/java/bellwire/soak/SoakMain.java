package bellwire.soak;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/**
 * Runs seeds of the whole system and prints what was simulated, and each invariant that broke. Exit
 * status 0 where all held, 1 where one broke, 2 for wrong arguments.
 */
public final class SoakMain {
  private static final String USAGE =
      """
      usage: bellwire-soak [--seed N] [--from N] [--seeds COUNT] [--for MINUTES] [--virtual MINUTES]
        --seed N           that seed alone, with all that happens in it
        --from N           the first seed; 1
        --seeds COUNT      so many of them; 100
        --for MINUTES      no further seed is begun after so long
        --virtual MINUTES  of each seed, about; 10
      """;

  private SoakMain() {}

  public static void main(String[] args) throws IOException {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    long from = 1;
    long seeds = 100;
    double minutes = Double.POSITIVE_INFINITY;
    double virtual = 10;
    boolean one = false;
    try {
      for (int i = 0; i < args.length; i += 2) {
        switch (args[i]) {
          case "--seed" -> {
            from = Long.parseLong(args[i + 1]);
            seeds = 1;
            one = true;
          }
          case "--from" -> from = Long.parseLong(args[i + 1]);
          case "--seeds" -> seeds = Long.parseLong(args[i + 1]);
          case "--for" -> minutes = Double.parseDouble(args[i + 1]);
          case "--virtual" -> virtual = Double.parseDouble(args[i + 1]);
          default -> throw new IllegalArgumentException(args[i]);
        }
      }
    } catch (IllegalArgumentException | ArrayIndexOutOfBoundsException e) {
      out.print(USAGE);
      System.exit(2);
    }
    System.exit(run(out, from, seeds, minutes, Math.round(virtual * 60e6), one) ? 0 : 1);
  }

  private static boolean run(
      PrintStream out, long from, long seeds, double minutes, long micros, boolean one)
      throws IOException {
    Path scratch = Files.createTempDirectory("bellwire-soak");
    long began = System.nanoTime();
    Tally all = new Tally();
    long broken = 0;
    long done = 0;
    for (long seed = from; seed < from + seeds; seed++) {
      if (System.nanoTime() - began > minutes * 60e9) {
        break;
      }
      Simulation.Outcome outcome =
          Simulation.run(seed, micros, scratch, one ? out::println : words -> {});
      all.add(outcome.tally());
      done++;
      if (!outcome.broken().isEmpty()) {
        broken++;
        out.println("BROKEN seed " + seed + " " + outcome.broken());
      }
      if (one) {
        out.printf(Locale.ROOT, "fingerprint %016x%n", outcome.fingerprint());
      }
    }
    Files.delete(scratch);
    double seconds = (System.nanoTime() - began) / 1e9;
    out.printf(
        Locale.ROOT,
        "seeds %d..%d: %d run, %d broken, %.0f s, %.0f virtual seconds a second%n",
        from,
        from + done - 1,
        done,
        broken,
        seconds,
        all.hours() * 3600 / seconds);
    out.print(all);
    return broken == 0;
  }
}
