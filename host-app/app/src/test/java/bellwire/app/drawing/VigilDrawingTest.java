package bellwire.app.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.vigil.Unwatched;
import bellwire.app.job.InventedVigils;
import bellwire.app.job.JobFile;
import bellwire.app.vigil.Counting;
import bellwire.app.vigil.StoredVigil;
import bellwire.app.vigil.VigilLoader;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.nio.file.Path;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class VigilDrawingTest {
  private static final double WIDTH = 510;
  private static final double PLOT = 96;
  private static final double RIGHT = 8;

  @TempDir Path directory;

  private StoredVigil day() throws Exception {
    Path job = directory.resolve("job.bellwire");
    try (JobFile file = JobFile.open(job)) {
      InventedVigils.continuity(file, job, 24, 33);
    }
    return VigilLoader.load(job, 1, StoredVigil.Part.ALL, Counting.EACH, share -> {});
  }

  @Test
  void everyLaneIsInTheDrawingAndSaysWhatHappened() throws Exception {
    StoredVigil vigil = day();
    VigilDrawing drawing = new VigilDrawing(vigil, ZoneOffset.UTC);
    assertThat(drawing.spots(WIDTH)).hasSize(16);
    long counted =
        drawing.spots(WIDTH).stream()
            .map(s -> s.words().replaceAll(".*: (\\d+) events?", "$1"))
            .filter(w -> w.matches("\\d+"))
            .mapToLong(Long::parseLong)
            .sum();
    assertThat(counted).isEqualTo(vigil.occurrences().size());
    assertThat(drawing.words()).contains("16 lanes").contains("1 gap");
  }

  @Test
  void noLaneGoesOnWhereNothingWasWatched() throws Exception {
    StoredVigil vigil = day();
    VigilDrawing drawing = new VigilDrawing(vigil, ZoneOffset.UTC);
    int height = (int) Math.ceil(drawing.height(WIDTH));
    BufferedImage image = new BufferedImage((int) WIDTH, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    drawing.paint(g, WIDTH, Palette.PRINT);
    g.dispose();
    Unwatched gap = vigil.gaps().get(0);
    int y = 18 + 18 - 4; // the first lane's ground line
    double inGap = inked(image, y, x(vigil, gap.fromMicros()), x(vigil, gap.toMicros()));
    double after = inked(image, y, x(vigil, gap.toMicros()), x(vigil, gap.toMicros()) + 40);
    assertThat(after).isGreaterThan(0.95);
    assertThat(inGap).as("hatching alone").isBetween(0.05, 0.75);
  }

  private static double x(StoredVigil vigil, long micros) {
    long from = vigil.watch().fromMicros();
    double length = vigil.watch().toMicros() - from;
    return PLOT + (WIDTH - PLOT - RIGHT) * (micros - from) / length;
  }

  private static double inked(BufferedImage image, int y, double from, double to) {
    int inked = 0;
    int all = 0;
    for (int x = (int) Math.ceil(from) + 1; x < (int) to - 1; x++) {
      boolean line =
          Palette.luminance(new Color(image.getRGB(x, y))) < 0.9
              || Palette.luminance(new Color(image.getRGB(x, y - 1))) < 0.9;
      inked += line ? 1 : 0;
      all++;
    }
    return (double) inked / all;
  }
}
