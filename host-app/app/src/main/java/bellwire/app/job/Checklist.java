package bellwire.app.job;

import java.util.List;
import java.util.Optional;

/** What the craft asks for before one leaves: items in the order in which they are worked. CP. */
public final class Checklist {
  /**
   * One item.
   *
   * @param key stable, for it stands in job files
   * @param words what is to be so
   * @param how to do or see it
   */
  public record Item(String key, String words, String how) {}

  private static final List<Item> ITEMS =
      List.of(
          new Item(
              "anchored",
              "Cable anchored before it was let go",
              "Clip or tie the cable at the wall before the old control comes off: a cable that"
                  + " slips into the wall is work for an hour."),
          new Item(
              "strip-length",
              "Strip length as the terminal asks",
              "By the gauge on the control or its sheet; too short, and the clamp holds"
                  + " insulation."),
          new Item(
              "no-bare-copper",
              "No bare copper outside a clamp",
              "Look from the side, at both ends: two bare ends can touch when the cover goes on."),
          new Item(
              "tug-far",
              "Tug test at the wall",
              "Pull each conductor by itself, gently; it must not move in its clamp."),
          new Item(
              "tug-near",
              "Tug test at the equipment",
              "Pull each conductor by itself, gently; a twist under a wire nut too."),
          new Item(
              "spares",
              "Spare conductors folded back and capped",
              "At both ends; a bare spare is a short that waits."),
          new Item(
              "hole-sealed",
              "Hole in the wall sealed",
              "Air from the wall makes a control read wrong."),
          new Item(
              "level",
              "Wall-plate level",
              "By a spirit level, for looks; by need for a tilt" + " switch."),
          new Item(
              "mounting", "Mounting firm", "Anchors hold, and the plate does not rock or bend."),
          new Item(
              "batteries",
              "Batteries new, and the right way round",
              "Where the control has" + " any; note their kind."),
          new Item(
              "fuse",
              "Fuse of the type and rating as found",
              "Read both off the fuse and off the board. Where one blew: find the cause first."),
          new Item(
              "covers", "Covers and panels back", "All screws; the door's switch works again."),
          new Item(
              "power",
              "Power restored",
              "Every supply that was switched off, and only those; look at page 2."),
          new Item(
              "customer",
              "Customer shown",
              "How it is set, how batteries are changed, and where this report is."));

  private Checklist() {}

  public static List<Item> items() {
    return ITEMS;
  }

  /** Empty of a key that a later version knows. */
  public static Optional<Item> item(String key) {
    return ITEMS.stream().filter(item -> item.key.equals(key)).findFirst();
  }
}
