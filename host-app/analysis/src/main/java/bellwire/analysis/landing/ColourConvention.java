package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Which colour the trade commonly lands under which letter: common practice, no source. A hint
 * among equal plans, never a reason to move a conductor.
 */
public final class ColourConvention {
  private static final Map<String, Set<String>> COLOURS =
      Map.ofEntries(
          Map.entry("R", Set.of("red")),
          Map.entry("C", Set.of("blue", "black")),
          Map.entry("W", Set.of("white")),
          Map.entry("W2", Set.of("white", "brown")),
          Map.entry("Y", Set.of("yellow")),
          Map.entry("Y2", Set.of("yellow", "light blue")),
          Map.entry("G", Set.of("green")),
          Map.entry("O", Set.of("orange")),
          Map.entry("B", Set.of("blue", "brown", "dark blue")));

  /**
   * A conductor whose colour is not that of its letter.
   *
   * @param usual colours for that letter, in alphabetical order
   * @param usualFor letter that its colour is usual for; null if for none
   */
  public record Disagreement(
      String conductor,
      String colour,
      Point.Side side,
      String terminal,
      List<String> usual,
      @Nullable String usualFor) {
    /**
     * Such as 'yellow is under G at the equipment, where green is usual; yellow is usual for Y'.
     */
    public String words() {
      String place = side == Point.Side.NEAR ? "at the equipment" : "at the control";
      String first = conductor.equals(colour) ? conductor : conductor + " (" + colour + " there)";
      return first
          + " is under "
          + terminal
          + " "
          + place
          + ", where "
          + String.join(" or ", usual)
          + " is usual"
          + (usualFor == null ? "" : "; " + colour + " is usual for " + usualFor);
    }
  }

  private ColourConvention() {}

  /** Whether a colour is usual for a letter; true where nothing is known of one of them. */
  public static boolean agrees(@Nullable String colour, @Nullable String terminal) {
    Set<String> usual = terminal == null ? null : COLOURS.get(Letters.plain(terminal));
    return colour == null || usual == null || usual.contains(plain(colour));
  }

  /** Where cable and convention disagree, at both ends, in the cable's order. */
  public static List<Disagreement> disagreements(Cable cable, LandingPlan plan) {
    List<Disagreement> list = new ArrayList<>();
    for (LandingPlan.Landed landed : plan.landed()) {
      Cable.Conductor c = cable.conductor(landed.conductor());
      add(list, c.name(), c.nearColour(), Point.Side.NEAR, landed.near());
      add(list, c.name(), c.farColour(), Point.Side.FAR, landed.far());
    }
    return list;
  }

  private static void add(
      List<Disagreement> list,
      String conductor,
      @Nullable String colour,
      Point.Side side,
      @Nullable String terminal) {
    if (colour == null || terminal == null || agrees(colour, terminal)) {
      return;
    }
    Set<String> usual = COLOURS.getOrDefault(Letters.plain(terminal), Set.of());
    list.add(
        new Disagreement(
            conductor,
            colour,
            side,
            terminal,
            usual.stream().sorted().toList(),
            usualFor(plain(colour))));
  }

  private static @Nullable String usualFor(String colour) {
    return List.of("R", "C", "W", "Y", "G", "O", "B").stream()
        .filter(letter -> COLOURS.getOrDefault(letter, Set.of()).contains(colour))
        .findFirst()
        .orElse(null);
  }

  private static String plain(String colour) {
    return colour.strip().toLowerCase(Locale.ROOT);
  }
}
