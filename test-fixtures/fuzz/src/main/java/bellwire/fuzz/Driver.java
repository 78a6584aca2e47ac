package bellwire.fuzz;

import org.jspecify.annotations.Nullable;

/** What the fuzzer calls, by its own names for these methods. */
public final class Driver {
  private static @Nullable Watched watched;

  private Driver() {}

  /**
   * Chooses the target.
   *
   * @param arguments one, its name
   */
  public static void fuzzerInitialize(String[] arguments) throws Exception {
    Entry entry = Entry.of(arguments[0]);
    Watched target = new Watched(entry);
    // Classes and fonts are loaded before any time is taken.
    target.take(entry.seeds().get(0));
    watched = target;
  }

  public static void fuzzerTestOneInput(byte[] input) throws Exception {
    Watched target = watched;
    if (target != null) {
      target.take(input);
    }
  }
}
