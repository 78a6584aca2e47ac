package bellwire.app.report;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.AlongRun;
import bellwire.analysis.survey.Finding;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A conductor drawn from end to end with what was found on it: {@code #} where it touches another,
 * {@code / /} where it is open, {@code <>} for a joint, whose place does not show. A question mark
 * stands where the place is not known.
 */
final class RunDrawing {
  /** Columns between the ends. */
  private static final int COLUMNS = 26;

  private static final int UNKNOWN_TOUCH = 2;

  private final StringBuilder line = new StringBuilder("-".repeat(COLUMNS));

  private RunDrawing() {}

  /**
   * @param broken whether it is, though no finding says so of this port alone
   * @param openAt where it is broken, null where it is not or that is not known
   */
  static String of(int port, List<Finding> findings, boolean broken, @Nullable AlongRun openAt) {
    RunDrawing drawing = new RunDrawing();
    if (broken) {
      drawing.gap(openAt, COLUMNS / 2 - 2);
    }
    int touch = 0;
    for (Finding finding : findings) {
      if (!finding.ports().contains(port)) {
        continue;
      }
      if (finding.kind() == CableFinding.JOINT) {
        drawing.put("<>", COLUMNS / 2 - 1);
      } else if (finding.kind().touching()) {
        touch = drawing.touch(finding.at());
      } else if (finding.kind() == CableFinding.OPEN) {
        drawing.gap(openAt, COLUMNS / 2 - 2);
      }
    }
    for (Finding finding : findings) {
      if (finding.kind() == CableFinding.BROKEN_BESIDE && finding.ports().contains(port)) {
        drawing.gap(openAt, (touch + COLUMNS) / 2);
      }
    }
    return drawing.line.toString();
  }

  private int touch(@Nullable AlongRun at) {
    int column =
        at != null && at.decided()
            ? (int) Math.round((COLUMNS - 1) * at.fraction().value())
            : UNKNOWN_TOUCH;
    put("#", column);
    return column;
  }

  private void gap(@Nullable AlongRun at, int unknown) {
    if (at != null && at.decided()) {
      put("/  /", (int) Math.round((COLUMNS - 4) * at.fraction().value()));
    } else {
      put("/ ?/", unknown);
    }
  }

  private void put(String mark, int column) {
    int start = Math.max(0, Math.min(COLUMNS - mark.length(), column));
    line.replace(start, start + mark.length(), mark);
  }
}
