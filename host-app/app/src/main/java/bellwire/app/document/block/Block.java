package bellwire.app.document.block;

import bellwire.app.drawing.Drawing;
import java.util.List;

/** A piece of a document, from top to bottom. */
public sealed interface Block {
  /**
   * @param level 1: of a section, 2: within one, 3: of a small part
   */
  record Heading(int level, String text) implements Block {}

  record Paragraph(List<Span> spans, Size size) implements Block {
    public enum Size {
      LEAD,
      BODY,
      SMALL
    }

    public static Paragraph of(String text) {
      return new Paragraph(Span.list(text), Size.BODY);
    }

    public static Paragraph lead(String text) {
      return new Paragraph(List.of(Span.bold(text)), Size.LEAD);
    }

    public static Paragraph small(String text) {
      return new Paragraph(List.of(Span.faint(text)), Size.SMALL);
    }
  }

  /** What must be read: framed, and not to be passed over. */
  record Cautions(String title, List<String> lines) implements Block {}

  /** Statements, each with how it is known. */
  record Statements(List<Statement> lines) implements Block {}

  record Statement(Mark mark, List<Span> spans) {
    public static Statement of(Mark mark, String text) {
      return new Statement(mark, Span.list(text));
    }
  }

  /** Names and what goes with them. */
  record Facts(List<Fact> facts) implements Block {}

  record Fact(String name, List<Span> spans) {
    public static Fact of(String name, String text) {
      return new Fact(name, Span.list(text));
    }
  }

  /**
   * @param head a cell a column
   * @param rows each with as many cells as the head; none longer or shorter
   */
  record Table(List<String> head, List<List<List<Span>>> rows) implements Block {
    public Table {
      for (List<List<Span>> row : rows) {
        if (row.size() != head.size()) {
          throw new IllegalArgumentException("head=" + head + " row=" + row);
        }
      }
    }
  }

  /**
   * @param caption what it shows
   */
  record Figure(Drawing drawing, String caption) implements Block {}

  /** Photographs beside one another. */
  record Photographs(List<Photograph> photographs) implements Block {}

  record Photograph(Picture picture, String caption) {}

  record PageBreak() implements Block {}
}
