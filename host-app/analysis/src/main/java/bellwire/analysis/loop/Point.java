package bellwire.analysis.loop;

import org.jspecify.annotations.Nullable;

/**
 * A place where copper of the loop meets.
 *
 * @param side where it is
 * @param name terminal, conductor's loose end, or a name inside the equipment; "" for metal
 */
public record Point(Side side, String name) {
  /** Bare metal: cabinet, earth. */
  public static final Point METAL = new Point(Side.METAL, "");

  /** Where a point is. */
  public enum Side {
    /** A terminal of the equipment, the near end of the cable. */
    NEAR,
    /** A terminal of the control, the far end of the cable. */
    FAR,
    /** Within the equipment, behind its terminals. */
    INSIDE,
    /** Within the control, behind its terminals. */
    CONTROL,
    /** Along the cable. */
    CABLE,
    METAL
  }

  // A record's own is slow until it is compiled, and points are looked up by the thousand.
  @Override
  public int hashCode() {
    return 31 * name.hashCode() + side.ordinal();
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Point p && side == p.side && name.equals(p.name);
  }

  public static Point near(String terminal) {
    return new Point(Side.NEAR, terminal);
  }

  public static Point far(String terminal) {
    return new Point(Side.FAR, terminal);
  }

  public static Point inside(String name) {
    return new Point(Side.INSIDE, name);
  }

  /** In the trade's words, such as 'Y at the equipment'. */
  public String words() {
    return switch (side) {
      case NEAR -> name + " at the equipment";
      case FAR -> name + " at the control";
      case INSIDE, CONTROL, CABLE -> name;
      case METAL -> "bare metal";
    };
  }
}
