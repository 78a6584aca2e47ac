package bellwire.app.document.type;

import bellwire.app.document.type.Piece.Look;

/**
 * What a person takes for one character, in the order of reading.
 *
 * @param start in the text
 * @param end behind it
 * @param way how it is drawn
 * @param face it is drawn with; without meaning where it isn't drawn with one
 * @param width what it takes of a line
 */
record Cluster(int start, int end, Way way, Face face, Look look, double width) {
  enum Way {
    LETTERS,
    OUTLINE,
    MISSING,
    /** Takes no room: a control character. */
    NOTHING
  }

  boolean alike(Cluster other) {
    return way == other.way && face == other.face && look.equals(other.look);
  }
}
