package bellwire.app.drawing;

import java.awt.Graphics2D;
import java.util.List;

/**
 * A vector drawing. Its units are 1/72 inch on paper; its smallest type is {@link #TYPE} of them,
 * so a screen that wants type of at least 14 pixels magnifies it 1.4 times or more ({@code
 * g.scale(1.4, 1.4)}, and a width of the component's divided by 1.4). Layout depends on the width
 * alone, never on the graphics. The origin is the top left corner.
 */
public interface Drawing {
  /** Size of the smallest type. */
  float TYPE = 10;

  /** Narrower widths are drawn as this one. */
  double LEAST_WIDTH = 320;

  /** What the drawing takes at this width. */
  double height(double width);

  /** Paints it, its paper included. The graphics' colour, font, stroke and clip are put back. */
  void paint(Graphics2D g, double width, Palette palette);

  /** What can be clicked or focused, in reading order. */
  List<Spot> spots(double width);

  /** The whole in words, for who can't see it. */
  String words();
}
