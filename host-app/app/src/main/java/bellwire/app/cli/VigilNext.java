package bellwire.app.cli;

import bellwire.app.report.Paragraph;
import bellwire.app.vigil.HeatBy;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilPrompts;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.ZonedDateTime;

/** What a person has to do next, once this program lets go of a vigil. */
final class VigilNext {
  private final PrintWriter out;
  private final Path job;
  private final String where;
  private HeatBy heat = HeatBy.of("");

  /**
   * @param where the options that name board or bench, as typed
   */
  VigilNext(PrintWriter out, Path job, String where) {
    this.out = out;
    this.job = job;
    this.where = where;
  }

  /** When the heat has to be back, from a vigil's note. */
  void heat(String note) {
    heat = HeatBy.of(note);
  }

  String heatLine() {
    return heat.live(ZonedDateTime.now());
  }

  /** Last of all, so that it is what stands on the screen. */
  void heatBack(VigilOrder order) {
    if (order.deEnergised()) {
      out.println();
      say(heat.atTheEnd(ZonedDateTime.now()));
    }
    out.flush();
  }

  void foreignVoltage() {
    out.println();
    say(VigilPrompts.FOREIGN);
  }

  void show() {
    out.println("    bellwire vigil show " + job);
    out.flush();
  }

  void resume() {
    out.println("    bellwire vigil start --resume --job " + job + " " + where);
    out.flush();
  }

  private void say(String words) {
    Paragraph.hanging("  ", words).forEach(out::println);
  }
}
