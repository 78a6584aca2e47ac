package bellwire.app.desk.vigil;

import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.vigil.VigilOrder;
import bellwire.link.Message.KeepVigil.Kind;
import java.nio.file.Path;
import java.util.List;

/**
 * The job's vigils, and what the last one saw.
 *
 * @param events of the last; -1 where that is not kept as a number
 */
record VigilCount(List<VigilRow> rows, long events) {
  static final VigilCount NONE = new VigilCount(List.of(), -1);

  VigilCount {
    rows = List.copyOf(rows);
  }

  /** Not on the event thread. */
  static VigilCount read(Path job) throws JobFileException {
    List<VigilRow> rows = VigilReader.vigils(job);
    if (rows.isEmpty() || noun(rows.get(rows.size() - 1)).isEmpty()) {
      return new VigilCount(rows, -1);
    }
    try (VigilReader reader = VigilReader.open(job, rows.get(rows.size() - 1).id())) {
      return new VigilCount(rows, reader.events().size());
    }
  }

  /** What a program's events are called; empty for one that keeps none. */
  private static String noun(VigilRow row) {
    if (row.program().equals(VigilOrder.name(Kind.CONTINUITY))) {
      return "opening";
    }
    return row.program().equals(VigilOrder.name(Kind.TOUCH)) ? "touch" : "";
  }

  /** '1 vigil, 25 openings'; of several, what the last one saw. */
  String words() {
    if (rows.isEmpty()) {
      return "not begun";
    }
    String vigils = rows.size() == 1 ? "1 vigil" : rows.size() + " vigils";
    if (events < 0) {
      return vigils;
    }
    String noun = noun(rows.get(rows.size() - 1));
    String plural = noun.endsWith("h") ? noun + "es" : noun + "s";
    String seen = events == 0 ? "no " + noun : events + " " + (events == 1 ? noun : plural);
    return vigils + (rows.size() == 1 ? ", " : ", last: ") + seen;
  }
}
