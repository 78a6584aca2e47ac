package bellwire.app.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.copper.Gauge;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Any survey, landing and rehearsal at any width: no two texts meet, none leaves the drawing, every
 * text reads on what it really stands on, every spot has words.
 */
class LayoutTest {
  private static final long SEED = Long.getLong("bellwire.seed", 29L);
  private static final int DRAWINGS = Integer.getInteger("bellwire.drawings", 60);
  private static final double LEAST_CONTRAST = 4.5;
  private static final Map<String, Palette> PALETTES = palettes();

  private static Map<String, Palette> palettes() {
    Map<String, Palette> palettes = new LinkedHashMap<>();
    palettes.put("print", Palette.PRINT);
    palettes.put("light", Palette.LIGHT);
    palettes.put("dark", Palette.DARK);
    palettes.put("dim", Palette.DIM);
    palettes.put("sunlight", Palette.SUNLIGHT);
    return palettes;
  }

  /** A drawing of each kind, something in each of them selected or nothing. */
  private static Map<String, PlateDrawing> drawings(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    DrawnSheets drawn = new DrawnSheets(seed);
    int conductors = List.of(1, 2, 8, 16, 3 + random.nextInt(13)).get(random.nextInt(5));
    var sheet = drawn.survey(conductors);
    Run run =
        random.nextBoolean() ? Run.UNKNOWN : new Run(24.5, Gauge.awg(18), 22, random.nextBoolean());
    var farColours = drawn.farColours(conductors);
    var strips = drawn.strips(conductors);
    var timing = drawn.timing(1 + random.nextInt(8));
    String selected = random.nextBoolean() ? null : "conductor:P1";
    Map<String, PlateDrawing> drawings = new LinkedHashMap<>();
    drawings.put("route", new RouteDrawing(sheet, farColours, run, selected));
    drawings.put("matrix", new PairMatrixDrawing(sheet, "pair:P1-P2"));
    drawings.put("resistance", new ResistanceDrawing(sheet, run, selected));
    drawings.put("strips", new StripsDrawing(strips, "near:" + strips.near().get(0).letter()));
    drawings.put("timing", new TimingDrawing(timing, "lane:" + timing.lanes().get(0).name()));
    return drawings;
  }

  @Test
  void noTextsMeetOrLeaveTheDrawing() {
    System.out.println("LayoutTest seed=" + SEED);
    int texts = 0;
    for (long seed = SEED; seed < SEED + DRAWINGS; seed++) {
      double width = new SplittableRandom(seed).nextDouble(320, 1500);
      for (double w : List.of(500.0, 1400.0, width)) {
        for (Map.Entry<String, PlateDrawing> each : drawings(seed).entrySet()) {
          Plate plate = each.getValue().plate(w);
          String where = each.getKey() + " seed=" + seed + " width=" + w;
          texts += plate.texts().size();
          assertThat(outside(plate)).as(where).isEmpty();
          assertThat(meeting(plate.texts())).as(where).isEmpty();
          spots(where, plate);
          assertThat(each.getValue().words()).as(where).isNotBlank();
        }
      }
    }
    assertThat(texts).isGreaterThan(100 * DRAWINGS);
  }

  private static List<Plate.Text> outside(Plate plate) {
    Rectangle2D whole =
        new Rectangle2D.Double(-0.6, -0.6, plate.width() + 1.2, plate.height() + 1.2);
    return plate.texts().stream().filter(t -> !whole.contains(t.box())).toList();
  }

  private static List<String> meeting(List<Plate.Text> texts) {
    List<String> meeting = new ArrayList<>();
    for (int i = 0; i < texts.size(); i++) {
      Rectangle2D a = texts.get(i).box();
      for (int j = i + 1; j < texts.size(); j++) {
        Rectangle2D both = a.createIntersection(texts.get(j).box());
        if (both.getWidth() > 0.5 && both.getHeight() > 0.5) {
          meeting.add(texts.get(i) + " meets " + texts.get(j));
        }
      }
    }
    return meeting;
  }

  private static void spots(String where, Plate plate) {
    Set<String> keys = new HashSet<>();
    Rectangle2D whole = new Rectangle2D.Double(-12, -12, plate.width() + 24, plate.height() + 24);
    for (Spot spot : plate.spots()) {
      assertThat(keys.add(spot.key())).as(where + " " + spot.key() + " twice").isTrue();
      assertThat(spot.words()).as(where + " " + spot.key()).isNotBlank();
      assertThat(whole.contains(spot.bounds())).as(where + " " + spot).isTrue();
      assertThat(spot.bounds().getWidth()).as(where + " " + spot).isPositive();
      assertThat(spot.bounds().getHeight()).as(where + " " + spot).isPositive();
    }
  }

  /** WCAG 2.2, success criterion 1.4.3, on the pixels under each text. */
  @Test
  void everyTextReadsOnWhatItStandsOn() {
    for (Map.Entry<String, Palette> palette : PALETTES.entrySet()) {
      for (long seed = SEED; seed < SEED + Math.max(3, DRAWINGS / 12); seed++) {
        for (Map.Entry<String, PlateDrawing> each : drawings(seed).entrySet()) {
          Plate plate = each.getValue().plate(seed % 2 == 0 ? 500 : 1000);
          String where = palette.getKey() + " " + each.getKey() + " seed=" + seed;
          assertThat(unreadable(plate, palette.getValue())).as(where).isEmpty();
        }
      }
    }
  }

  private static List<String> unreadable(Plate plate, Palette palette) {
    int width = (int) Math.ceil(plate.width());
    int height = (int) Math.ceil(plate.height());
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    plate.paintMarks(g, palette);
    g.dispose();
    List<String> unreadable = new ArrayList<>();
    for (Plate.Text text : plate.texts()) {
      Rectangle2D b = text.box();
      double worst = Double.MAX_VALUE;
      for (int y = Math.max(0, (int) Math.ceil(b.getMinY() + 1));
          y < Math.min(height, b.getMaxY() - 1);
          y++) {
        for (int x = Math.max(0, (int) Math.ceil(b.getMinX()));
            x < Math.min(width, b.getMaxX()) - 1;
            x++) {
          Color under = new Color(image.getRGB(x, y));
          worst = Math.min(worst, Palette.contrast(text.tone().of(palette), under));
        }
      }
      if (worst < LEAST_CONTRAST) {
        unreadable.add(text.words() + " at " + b + " contrast=" + worst);
      }
    }
    return unreadable;
  }
}
