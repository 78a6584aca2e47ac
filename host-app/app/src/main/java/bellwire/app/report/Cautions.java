package bellwire.app.report;

import java.util.List;

/** The cautions shown with the help and at the start of every measurement. */
public final class Cautions {

  private static final List<String> LINES =
      List.of(
          "Low voltage only: class 2 circuits, up to 30 V. Never on mains or line-voltage controls.",
          "Switch the equipment off at its disconnect, then prove the cable dead with your own meter:"
              + " live, dead, live.",
          "A clear interlock means that the board sees no foreign voltage. It never means 'proved"
              + " dead'.",
          "Find out why a fuse opened, then fit one of the same type and rating only.",
          "A leakage reading taken at low voltage is no insulation-resistance test.",
          "Follow the local codes; work that needs a licence is for those who hold one.");

  private Cautions() {}

  /** One caution a line, in the order they are to be read. */
  public static List<String> lines() {
    return LINES;
  }
}
