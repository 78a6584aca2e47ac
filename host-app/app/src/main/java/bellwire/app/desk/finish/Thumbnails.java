package bellwire.app.desk.finish;

import bellwire.app.desk.DeskContext;
import bellwire.app.document.ExifOrientation;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import org.jspecify.annotations.Nullable;

/** Photographs made small, in the background; what can't be shown stays without a picture. */
final class Thumbnails {
  /** At 200 %, too. */
  private static final int LONGEST = 360;

  /** More than any camera's. */
  private static final long MOST_PIXELS = 400_000_000;

  private final DeskContext ctx;
  private final Runnable arrived;
  private final Map<Long, Optional<BufferedImage>> made = new HashMap<>();
  private final Set<Long> asked = new HashSet<>();

  /**
   * @param arrived told on the event thread of each that has come
   */
  Thumbnails(DeskContext ctx, Runnable arrived) {
    this.ctx = ctx;
    this.arrived = arrived;
  }

  /** Null while it is on its way, and where it can't be shown. */
  @Nullable BufferedImage of(long photo) {
    Optional<BufferedImage> known = made.get(photo);
    if (known == null && asked.add(photo)) {
      ctx.later(
          ctx.visit()
              .ask(all -> all.photoBytes(photo))
              .thenApplyAsync(Thumbnails::made)
              .exceptionally(failure -> Optional.empty()),
          image -> {
            made.put(photo, image);
            arrived.run();
          });
    }
    return known == null ? null : known.orElse(null);
  }

  /** Whether it has come and is no picture. */
  boolean unreadable(long photo) {
    Optional<BufferedImage> known = made.get(photo);
    return known != null && known.isEmpty();
  }

  void forget(long photo) {
    made.remove(photo);
    asked.remove(photo);
  }

  static Optional<BufferedImage> made(byte[] picture) {
    try (ImageInputStream in = ImageIO.createImageInputStream(new ByteArrayInputStream(picture))) {
      Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
      if (!readers.hasNext()) {
        return Optional.empty();
      }
      ImageReader reader = readers.next();
      try {
        reader.setInput(in, true, true);
        return Optional.ofNullable(small(reader, ExifOrientation.of(picture)));
      } finally {
        reader.dispose();
      }
    } catch (IOException | RuntimeException e) {
      // A damaged picture makes some decoders throw what they please.
      return Optional.empty();
    }
  }

  /**
   * Reads every n-th pixel only, so that memory holds little of a large picture.
   *
   * @param orientation as the camera noted it
   */
  private static @Nullable BufferedImage small(ImageReader reader, int orientation)
      throws IOException {
    int width = reader.getWidth(0);
    int height = reader.getHeight(0);
    if ((long) width * height > MOST_PIXELS) {
      return null;
    }
    int step = Math.max(1, Math.max(width, height) / (2 * LONGEST));
    ImageReadParam param = reader.getDefaultReadParam();
    param.setSourceSubsampling(step, step, 0, 0);
    BufferedImage read = reader.read(0, param);
    double factor = Math.min(1, LONGEST / (double) Math.max(read.getWidth(), read.getHeight()));
    int w = Math.max(1, (int) (read.getWidth() * factor));
    int h = Math.max(1, (int) (read.getHeight() * factor));
    boolean turned = ExifOrientation.turned(orientation);
    BufferedImage small =
        new BufferedImage(turned ? h : w, turned ? w : h, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = small.createGraphics();
    g.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
    g.transform(ExifOrientation.upright(orientation, w, h));
    g.drawImage(read, 0, 0, w, h, null);
    g.dispose();
    return small;
  }
}
