package bellwire.app.document.type;

import bellwire.app.document.block.Span.Tone;
import java.awt.Shape;

/** A part of a line that is drawn in one way. */
public sealed interface Piece {
  /** From the line's left end. */
  double x();

  double width();

  Look look();

  /**
   * How a text looks.
   *
   * @param size of type
   */
  record Look(double size, boolean bold, boolean struck, Tone tone) {
    public Face face() {
      return bold ? Face.BOLD : Face.REGULAR;
    }
  }

  /**
   * Letters side by side.
   *
   * @param text in the order seen, from left to right
   */
  record Letters(Face face, String text, double x, double width, Look look) implements Piece {}

  /**
   * Text whose letters join, as outlines.
   *
   * @param outline from the piece's left end and the base line, down is positive
   * @param text in the order seen: for the invisible layer that makes it found again
   */
  record Outline(Face face, Shape outline, String text, double x, double width, Look look)
      implements Piece {}

  /** A character that no font has: a box with its number. */
  record Missing(int codePoint, double x, double width, Look look) implements Piece {}
}
