package bellwire.soak;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;

/** One seed from beginning to end. */
final class Simulation {

  /**
   * What came of a seed.
   *
   * @param broken in words; empty where all held
   * @param fingerprint of all that the host heard and when
   */
  record Outcome(long seed, String broken, long fingerprint, Tally tally) {}

  private Simulation() {}

  /**
   * @param micros virtual time, about
   * @param scratch a directory for the seed's own files, emptied afterwards
   * @param log told what happens
   */
  static Outcome run(long seed, long micros, Path scratch, Consumer<String> log) {
    Scenario scenario = Drawing.of(seed, micros);
    Path directory = scratch.resolve("seed-" + seed);
    Tally tally = new Tally();
    World world = null;
    try {
      Files.createDirectories(directory);
      log.accept(scenario.text());
      scenario.mishaps().forEach(m -> log.accept("mishap " + m));
      world = new World(scenario, directory.resolve("record"));
      World there = world;
      Consumer<String> timed =
          words -> log.accept(String.format("%12.6f  %s", there.nowMicros() * 1e-6, words));
      scenario.mishaps().forEach(m -> tally.mishap(m.kind()));
      new Operator(scenario, world, directory, tally, timed).visit();
      return outcome(seed, "", world, tally);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (Error | RuntimeException e) {
      String at = world == null ? "" : String.format("at %.6f s: ", world.nowMicros() * 1e-6);
      StackTraceElement[] where = e.getStackTrace();
      String words =
          e instanceof Broken
              ? e.getMessage()
              : e + " " + List.of(where).subList(0, Math.min(6, where.length));
      return outcome(seed, at + words, world, tally);
    } finally {
      if (world != null) {
        world.end();
      }
      remove(directory);
    }
  }

  private static Outcome outcome(
      long seed, String broken, @org.jspecify.annotations.Nullable World world, Tally tally) {
    if (world == null) {
      return new Outcome(seed, broken, 0, tally);
    }
    tally.passed(world.nowMicros());
    tally.count("looks at the board", world.looks);
    tally.count("looks with the relays closed", world.connectedLooks);
    tally.count("trips of the interlock", world.trips);
    tally.count("bytes or chunks spoilt on the line", world.spoilt());
    return new Outcome(seed, broken, world.fingerprint(), tally);
  }

  private static void remove(Path directory) {
    try (Stream<Path> files = Files.walk(directory)) {
      for (Path each : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(each);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
