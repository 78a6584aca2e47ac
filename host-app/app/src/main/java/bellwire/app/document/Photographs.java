package bellwire.app.document;

import bellwire.app.document.block.Picture;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Iterator;
import java.util.Locale;
import java.util.Set;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.ImageOutputStream;

/** Makes photographs fit for a report: upright, scaled down, without what a camera notes. */
final class Photographs {
  /** Of the longer side; 15 cm of paper at 200 dots an inch. */
  private static final int LONGEST = 1200;

  private static final float QUALITY = 0.82f;
  private static final long MOST_PIXELS = 400_000_000;

  /** JPEG's own; a reader keeps whole lines. */
  private static final long MOST_SIDE = 65_535;

  private static final Set<String> FORMATS = Set.of("jpeg", "png");

  private Photographs() {}

  /**
   * @param bytes JPEG or PNG
   */
  static Picture scaled(byte[] bytes) throws IOException {
    BufferedImage read = read(bytes);
    BufferedImage upright = upright(read, ExifOrientation.of(bytes));
    return new Picture(jpeg(upright), upright.getWidth(), upright.getHeight());
  }

  /** Only as many pixels as are needed, for a camera's pictures are large. */
  private static BufferedImage read(byte[] bytes) throws IOException {
    try (ImageInputStream in = ImageIO.createImageInputStream(new ByteArrayInputStream(bytes))) {
      Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
      if (!readers.hasNext()) {
        throw new IOException("no picture that can be shown; keep it as JPEG or PNG");
      }
      ImageReader reader = readers.next();
      try {
        // A row of a job may hold anything, and the library reads more kinds than are wanted.
        if (!FORMATS.contains(reader.getFormatName().toLowerCase(Locale.ROOT))) {
          throw new IOException("no picture that can be shown; keep it as JPEG or PNG");
        }
        reader.setInput(in, true, true);
        long width = reader.getWidth(0);
        long height = reader.getHeight(0);
        if (width * height > MOST_PIXELS || Math.max(width, height) > MOST_SIDE) {
          throw new IOException("too large a picture: " + width + " by " + height);
        }
        int step = (int) Math.max(1, Math.max(width, height) / (2L * LONGEST));
        ImageReadParam param = reader.getDefaultReadParam();
        param.setSourceSubsampling(step, step, 0, 0);
        return reader.read(0, param);
      } finally {
        reader.dispose();
      }
    }
  }

  /**
   * @param orientation Exif's, 1 to 8
   */
  private static BufferedImage upright(BufferedImage from, int orientation) {
    double scale = Math.min(1, (double) LONGEST / Math.max(from.getWidth(), from.getHeight()));
    int w = Math.max(1, (int) Math.round(from.getWidth() * scale));
    int h = Math.max(1, (int) Math.round(from.getHeight() * scale));
    boolean turned = ExifOrientation.turned(orientation);
    BufferedImage to =
        new BufferedImage(turned ? h : w, turned ? w : h, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = to.createGraphics();
    g.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, to.getWidth(), to.getHeight());
    g.transform(ExifOrientation.upright(orientation, w, h));
    g.drawImage(
        from,
        AffineTransform.getScaleInstance(
            (double) w / from.getWidth(), (double) h / from.getHeight()),
        null);
    g.dispose();
    return to;
  }

  private static byte[] jpeg(BufferedImage image) throws IOException {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ImageOutputStream out = ImageIO.createImageOutputStream(bytes)) {
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      param.setCompressionQuality(QUALITY);
      writer.setOutput(out);
      writer.write(null, new IIOImage(image, null, null), param);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }
}
