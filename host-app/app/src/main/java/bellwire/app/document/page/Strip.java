package bellwire.app.document.page;

import java.util.List;

/**
 * What isn't parted, over the whole width of the text: a line, a line of a table's row, a drawing.
 *
 * @param items from the strip's top left corner
 * @param kind what becomes of it between pages
 * @param glued it stays with the next one, where both fit on a page
 * @param head repeated above it where it begins a page; a table's
 * @param row strips of one number are lines of one row: it is read cell by cell; 0 for none
 */
record Strip(
    double height, List<Placed> items, Kind kind, boolean glued, List<Strip> head, int row) {
  enum Kind {
    CONTENT,
    /** Room that is left away at the top of a page. */
    GAP,
    /** The next begins a page. */
    BREAK
  }

  static Strip of(double height, List<Placed> items, boolean glued) {
    return new Strip(height, items, Kind.CONTENT, glued, List.of(), 0);
  }

  static Strip gap(double height) {
    return new Strip(height, List.of(), Kind.GAP, true, List.of(), 0);
  }

  static Strip pageBreak() {
    return new Strip(0, List.of(), Kind.BREAK, false, List.of(), 0);
  }

  Strip kept() {
    return new Strip(height, items, kind, true, head, row);
  }

  Strip under(List<Strip> repeated) {
    return new Strip(height, items, kind, glued, repeated, row);
  }
}
