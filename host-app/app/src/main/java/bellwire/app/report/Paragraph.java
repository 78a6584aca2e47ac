package bellwire.app.report;

import java.util.ArrayList;
import java.util.List;

/** Sentences broken into lines between their words, so that a terminal does not break them. */
public final class Paragraph {
  /** Columns of an ordinary terminal. */
  private static final int WIDTH = 80;

  private Paragraph() {}

  /**
   * @param lead what the first line begins with; the others are indented as far
   * @param words a word longer than a line gets one of its own
   */
  public static List<String> hanging(String lead, String words) {
    List<String> lines = new ArrayList<>();
    String indent = " ".repeat(lead.length());
    StringBuilder line = new StringBuilder(lead);
    boolean begun = false;
    for (String word : words.strip().split(" +")) {
      if (begun && line.length() + 1 + word.length() > WIDTH) {
        lines.add(line.toString());
        line = new StringBuilder(indent);
        begun = false;
      }
      line.append(begun ? " " : "").append(word);
      begun = true;
    }
    lines.add(line.toString());
    return lines;
  }
}
