package bellwire.app.vigil;

import java.util.List;

/**
 * What a vigil saw, in sentences.
 *
 * @param parts in order: without a title what it was; STATEMENT; NOT WATCHED, where there are gaps;
 *     DETAIL, where something happened; TIME, with its marks
 */
public record VigilStatement(List<Part> parts) {

  public record Part(String title, List<Line> lines) {}

  /**
   * @param lead what a line begins with on a terminal; one with '!' is a finding
   */
  public record Line(String lead, String words) {
    public boolean finding() {
      return lead.contains("!");
    }
  }
}
