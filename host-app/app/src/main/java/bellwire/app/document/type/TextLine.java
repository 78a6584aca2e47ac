package bellwire.app.document.type;

import java.util.List;

/**
 * A line of text as it is drawn.
 *
 * @param text as it is read
 * @param pieces from left to right
 * @param ascent above the base line
 * @param descent below the base line, positive
 */
public record TextLine(
    String text, List<Piece> pieces, double width, double ascent, double descent) {
  public double height() {
    return ascent + descent;
  }
}
