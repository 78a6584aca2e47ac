package bellwire.app.job;

import java.util.Map;

/** What the tests' vigils were asked for. */
final class Asked {
  private Asked() {}

  static Watched vigil(String program) {
    return new Watched(
        8_000_000_000_007L,
        program,
        0xFFFF,
        3,
        false,
        0,
        86_400_000_000L,
        "A",
        "behind the stairs",
        27.4,
        0,
        60,
        Map.of(3, "white"));
  }
}
