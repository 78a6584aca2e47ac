package bellwire.app.document;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.document.block.Picture;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Photographs as cameras write them. */
class PhotographsTest {
  /**
   * Where the stored picture's top left corner belongs (Exif 2.3, 4.6.4 A, tag Orientation: the
   * side of the 0th row and of the 0th column; from memory).
   */
  @ParameterizedTest
  @CsvSource({
    "1, top, left", "2, top, right", "3, bottom, right", "4, bottom, left",
    "5, top, left", "6, top, right", "7, bottom, right", "8, bottom, left"
  })
  void aPictureStandsUpright(int orientation, String row, String column) throws Exception {
    BufferedImage image = new BufferedImage(80, 48, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setColor(Color.RED);
    g.fillRect(0, 0, 24, 24);
    g.dispose();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(image, "jpeg", out);
    Picture picture = Photographs.scaled(tagged(out.toByteArray(), orientation));
    assertThat(picture.width() > picture.height()).isEqualTo(orientation < 5);
    BufferedImage upright = ImageIO.read(new ByteArrayInputStream(picture.jpeg()));
    int x = column.equals("left") ? 8 : upright.getWidth() - 9;
    int y = row.equals("top") ? 8 : upright.getHeight() - 9;
    assertThat(new Color(upright.getRGB(x, y)).getRed()).isGreaterThan(180);
  }

  /** A camera's APP1 segment behind the begin of the file, little endian. */
  private static byte[] tagged(byte[] jpeg, int orientation) throws IOException {
    byte[] exif = {
      (byte) 0xFF,
      (byte) 0xE1,
      0,
      34,
      'E',
      'x',
      'i',
      'f',
      0,
      0,
      'I',
      'I',
      42,
      0,
      8,
      0,
      0,
      0,
      1,
      0,
      0x12,
      0x01,
      3,
      0,
      1,
      0,
      0,
      0,
      (byte) orientation,
      0,
      0,
      0,
      0,
      0,
      0,
      0
    };
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(jpeg, 0, 2);
    out.write(exif);
    out.write(jpeg, 2, jpeg.length - 2);
    return out.toByteArray();
  }

  @Test
  void aLargePictureIsScaledDown() throws Exception {
    Picture picture = Photographs.scaled(ReportJobs.photo(3000, 2000));
    assertThat(Math.max(picture.width(), picture.height())).isEqualTo(1200);
    assertThat(picture.height()).isEqualTo(800);
  }
}
