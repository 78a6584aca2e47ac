package bellwire.soak;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Runs seeds of the whole system and prints what was simulated, and each invariant that broke. Exit
 * status 0 where all held, 1 where one broke, 2 for wrong arguments.
 */
public final class SoakMain {
  private static final String USAGE =
      """
      usage: bellwire-soak [--seed N] [--from N] [--seeds COUNT] [--for MINUTES] [--virtual MINUTES] [--at-once N]
        --seed N           that seed alone, with all that happens in it
        --from N           the first seed; 1
        --seeds COUNT      so many of them; 100
        --for MINUTES      no further seed is begun after so long
        --virtual MINUTES  of each seed, about; 10
        --at-once N        so many threads; 1
      """;

  private static final long SAY_NANOS = 60_000_000_000L;

  private final PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
  private final Tally all = new Tally();
  private long from = 1;
  private long seeds = 100;
  private double minutes = Double.POSITIVE_INFINITY;
  private double virtual = 10;
  private int atOnce = 1;
  private boolean one;
  private long done;
  private long broken;
  private long began;
  private long saidNanos;

  private SoakMain() {}

  public static void main(String[] args) throws IOException, InterruptedException {
    SoakMain soak = new SoakMain();
    try {
      soak.take(args);
    } catch (IllegalArgumentException | ArrayIndexOutOfBoundsException e) {
      soak.out.print(USAGE);
      System.exit(2);
    }
    System.exit(soak.run() ? 0 : 1);
  }

  private void take(String[] args) {
    for (int i = 0; i < args.length; i += 2) {
      String value = args[i + 1];
      switch (args[i]) {
        case "--seed" -> {
          from = Long.parseLong(value);
          seeds = 1;
          one = true;
        }
        case "--from" -> from = Long.parseLong(value);
        case "--seeds" -> seeds = Long.parseLong(value);
        case "--for" -> minutes = Double.parseDouble(value);
        case "--virtual" -> virtual = Double.parseDouble(value);
        case "--at-once" -> atOnce = Integer.parseInt(value);
        default -> throw new IllegalArgumentException(args[i]);
      }
    }
  }

  private boolean run() throws IOException, InterruptedException {
    Path scratch = Files.createTempDirectory("bellwire-soak");
    began = System.nanoTime();
    saidNanos = began;
    Thread summary = new Thread(this::summary);
    Runtime.getRuntime().addShutdownHook(summary); // also of what an interrupted run has done
    AtomicLong next = new AtomicLong(from);
    ExecutorService threads = Executors.newFixedThreadPool(atOnce);
    for (int i = 0; i < atOnce; i++) {
      threads.execute(
          () -> {
            for (long seed = next.getAndIncrement();
                seed < from + seeds && System.nanoTime() - began < minutes * 60e9;
                seed = next.getAndIncrement()) {
              took(Simulation.run(seed, Math.round(virtual * 60e6), scratch, this::log));
            }
          });
    }
    threads.shutdown();
    threads.awaitTermination(Long.MAX_VALUE, TimeUnit.NANOSECONDS);
    Files.delete(scratch);
    return done > 0 && broken == 0;
  }

  private synchronized void summary() {
    double seconds = (System.nanoTime() - began) / 1e9;
    out.printf(
        Locale.ROOT,
        "from seed %d: %d run, %d broken, %.0f s, %.0f virtual seconds a second%n",
        from,
        done,
        broken,
        seconds,
        all.hours() * 3600 / seconds);
    out.print(all);
  }

  private void log(String words) {
    if (one) {
      out.println(words);
    }
  }

  private synchronized void took(Simulation.Outcome outcome) {
    done++;
    all.add(outcome.tally());
    if (!outcome.broken().isEmpty()) {
      broken++;
      out.println("BROKEN seed " + outcome.seed() + " " + outcome.broken());
    }
    if (System.nanoTime() - saidNanos > SAY_NANOS) {
      saidNanos = System.nanoTime();
      out.printf(
          Locale.ROOT, "... %d run, %d broken, %.1f virtual hours%n", done, broken, all.hours());
    }
    if (one) {
      out.printf(Locale.ROOT, "fingerprint %016x%n", outcome.fingerprint());
    }
  }
}
