package bellwire.app.drawing;

import java.awt.Shape;
import java.awt.geom.Line2D;

/**
 * A conductor as a line in its own colours, with an edge that shows white on white and black on
 * black.
 */
final class Insulation {
  private static final double EDGE = 6.4;
  private static final double FILL = 4.4;
  private static final double STRIPE = 1.7;
  private static final float STRIPE_DASH = 5;

  private Insulation() {}

  static void draw(Plate plate, Shape path, ConductorColour colour, float... dash) {
    plate.stroke(path, colour::edge, EDGE, dash);
    plate.stroke(path, Tone.fixed(colour.fill()), FILL, dash);
    if (colour.stripe() != null) {
      float[] stripe = dash.length == 0 ? new float[] {STRIPE_DASH, STRIPE_DASH} : dash;
      plate.stroke(path, Tone.fixed(colour.stripe()), STRIPE, stripe);
    } else if (!colour.known()) {
      plate.stroke(path, Palette::paper, STRIPE, 2, 4);
    }
  }

  static void unknown(Legend legend) {
    ConductorColour none = ConductorColour.of(null);
    legend.add(
        "colour not told, or in words not known here",
        (p, x, y) -> draw(p, new Line2D.Double(x, y, x + Legend.SAMPLE, y), none));
  }
}
