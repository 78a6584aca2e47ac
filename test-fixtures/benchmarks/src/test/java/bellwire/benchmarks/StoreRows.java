package bellwire.benchmarks;

import bellwire.app.export.RowPerSample.Cost;
import bellwire.app.export.RowPerSample.Form;
import bellwire.app.job.VigilBeside;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/** A vigil's words at 1 kHz: size, and the time from opening the file to 1000 columns. */
final class StoreRows {
  private static final long SEED = 9;
  private static final Map<Form, String> NAMES =
      Map.of(
          Form.CSV, "CSV",
          Form.SQLITE, "SQLite, a row a sample",
          Form.PARQUET, "Parquet");

  private StoreRows() {}

  static List<Row> rows(boolean briefly, Path directory) throws Exception {
    double hours = briefly ? 0.01 : 1;
    int runs = briefly ? 1 : 3;
    List<VigilBeside.Compared> all = new ArrayList<>();
    for (int run = 0; run < runs; run++) {
      all.add(VigilBeside.compare(hours, SEED, directory));
    }
    List<Row.Peer> sizes = new ArrayList<>();
    List<Row.Peer> times = new ArrayList<>();
    for (Form form : Form.values()) {
      String name = NAMES.getOrDefault(form, form.name());
      double samples = all.get(0).samples();
      sizes.add(new Row.Peer(name, of(all, c -> other(c, form).bytesPerRow() * samples / 1000)));
      times.add(new Row.Peer(name, of(all, c -> other(c, form).nanosPerRow() * samples / 1e6)));
    }
    String what = briefly ? "a little of a vigil" : "an hour's vigil of sixteen conductors";
    return List.of(
        new Row(what + ", its size", "kB", "the job file", of(all, c -> size(c) / 1000), sizes),
        new Row(
            what + ", opened and drawn in 1000 columns",
            "ms",
            "the job file",
            of(all, c -> c.ours().nanosPerRow() * c.samples() / 1e6),
            times));
  }

  private static double size(VigilBeside.Compared compared) {
    return compared.ours().bytesPerRow() * compared.samples();
  }

  private static Cost other(VigilBeside.Compared compared, Form form) {
    Cost cost = compared.others().get(form);
    if (cost == null) {
      throw new IllegalArgumentException("form=" + form);
    }
    return cost;
  }

  private static Figure of(
      List<VigilBeside.Compared> all, ToDoubleFunction<VigilBeside.Compared> figure) {
    return Figure.of(all.stream().mapToDouble(figure).toArray());
  }
}
