package bellwire.app.cli;

import bellwire.app.rehearsal.Times;
import bellwire.app.vigil.VigilView;
import java.util.ArrayList;
import java.util.List;

/** A vigil under way in lines: what and how long first, then a line a conductor. */
final class VigilLines {
  private static final long MEBI = 1 << 20;
  private static final long SECOND = 1_000_000;

  private final String program;

  VigilLines(String program) {
    this.program = program;
  }

  /**
   * @param hereBytes room on this computer's disk
   * @param heat when the building has to have its heat back; empty where it has it
   */
  List<String> lines(VigilView view, long hereBytes, String heat) {
    List<String> lines = new ArrayList<>();
    lines.add(
        "  "
            + program
            + ": watched "
            + seconds(view.watchedMicros())
            + ", "
            + seconds(view.leftMicros())
            + " left"
            + (heat.isEmpty() ? "" : "; " + heat));
    lines.add(
        "  "
            + (view.up() ? "linked" : "LINK LOST, the agent goes on alone")
            + "; disk: "
            + room(hereBytes)
            + " here"
            + (view.boardDiskBytes() > 0
                ? ", " + room(view.boardDiskBytes()) + " at the board"
                : "; the board keeps no record of its own")
            + (view.lost() > 0 ? "; " + view.lost() + " messages LOST" : ""));
    int width = view.rows().stream().mapToInt(r -> r.name().length()).max().orElse(0);
    for (VigilView.Row row : view.rows()) {
      lines.add(
          String.format(
                  "    %-" + width + "s  %6d  %s  %s",
                  row.name(),
                  row.events(),
                  said(row),
                  row.now())
              .stripTrailing());
    }
    return lines;
  }

  private static String said(VigilView.Row row) {
    if (row.events() == 0) {
      return String.format("%-44s", "none");
    }
    String brief = row.brief() == 0 ? "" : ", " + row.brief() + " shorter than 1 ms";
    String longest =
        row.longestMicros() == 0 ? "" : ", longest " + Times.words(row.longestMicros());
    return String.format("%-44s", "last " + seconds(row.lastMicros()) + " ago" + longest + brief);
  }

  private static String seconds(long micros) {
    return micros < SECOND ? "0 s" : Times.words(micros / SECOND * SECOND);
  }

  private static String room(long bytes) {
    return bytes >= 10 * 1024 * MEBI
        ? bytes / (1024 * MEBI) + " GiB"
        : Math.max(0, bytes / MEBI) + " MiB";
  }
}
