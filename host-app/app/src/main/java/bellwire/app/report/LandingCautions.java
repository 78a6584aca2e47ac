package bellwire.app.report;

import java.util.List;

/** What to know before trusting a computed landing. */
public final class LandingCautions {
  public static final List<String> LINES =
      List.of(
          "Leave the power off until the findings are cleared. This is computed from what the files"
              + " say: what they do not say it cannot see.",
          "Low voltage only: class 2 circuits, up to 30 V. Never on mains or line-voltage controls.",
          "Before any conductor is moved: switch the equipment off at its disconnect and prove the"
              + " cable dead with your own meter, live, dead, live.",
          "A fuse that has opened: find the cause first, then fit the same type and rating.",
          "The equipment's own wiring diagram and the local codes come first; work that needs a"
              + " licence is for those who hold one.");

  private LandingCautions() {}
}
