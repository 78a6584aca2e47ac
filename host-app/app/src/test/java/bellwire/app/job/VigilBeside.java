package bellwire.app.job;

import bellwire.app.export.RowPerSample;
import bellwire.app.export.RowPerSample.Cost;
import bellwire.app.export.RowPerSample.Form;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.Random;

/** A vigil's samples in the job file, and in forms with a row a sample. */
public final class VigilBeside {
  private static final double OPENINGS_PER_HOUR = 1;
  private static final double OPEN_MILLIS = 5;

  /**
   * @param ours bytes a sample, and ns a sample from opening the file to 1000 columns
   */
  public record Compared(long samples, Cost ours, Map<Form, Cost> others) {}

  private VigilBeside() {}

  /**
   * Sixteen conductors' words at 1 kHz.
   *
   * @param directory for the files; what is there stays
   */
  public static Compared compare(double hours, long seed, Path directory) throws Exception {
    Path file = Files.createTempFile(directory, "vigil", ".bellwire");
    Files.delete(file);
    long samples = Math.round(hours * 3_600_000);
    long vigil;
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.startVigil(Asked.vigil("continuity"), 0, 0, System::nanoTime);
      Stream ports = store.addWords("ports", VigilFeed.TICK_MICROS);
      VigilFeed.words(store, ports, hours, OPENINGS_PER_HOUR, OPEN_MILLIS, new Random(seed));
      store.close();
      vigil = store.vigil();
    }
    Map<Form, Cost> others = new EnumMap<>(Form.class);
    double nanos = Double.POSITIVE_INFINITY;
    for (int i = 0; i < 2; i++) {
      long begin = System.nanoTime();
      try (VigilReader reader = VigilReader.open(file, vigil)) {
        for (Stream stream : reader.streams()) {
          reader.overview(stream, 0, samples * VigilFeed.TICK_MICROS, 1000);
        }
      }
      nanos = Math.min(nanos, System.nanoTime() - begin);
    }
    try (VigilReader reader = VigilReader.open(file, vigil)) {
      for (Form form : Form.values()) {
        others.put(form, RowPerSample.cost(form, reader, (int) samples, directory));
      }
    }
    double bytes = Files.size(file);
    return new Compared(samples, new Cost(bytes / samples, nanos / samples), others);
  }
}
