package bellwire.app.document;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.zip.CRC32;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Pictures in a job that was sent: a few bytes that say they are very large, other kinds. */
class HostilePicturesTest {

  /** PNG (W3C), 11.2.2: the header alone. */
  private static byte[] png(int width, int height) throws IOException {
    ByteArrayOutputStream header = new ByteArrayOutputStream();
    DataOutputStream out = new DataOutputStream(header);
    out.writeBytes("IHDR");
    out.writeInt(width);
    out.writeInt(height);
    out.write(new byte[] {16, 6, 0, 0, 0});
    CRC32 crc = new CRC32();
    crc.update(header.toByteArray());
    ByteArrayOutputStream picture = new ByteArrayOutputStream();
    DataOutputStream all = new DataOutputStream(picture);
    all.writeLong(0x89504E470D0A1A0AL);
    all.writeInt(13);
    all.write(header.toByteArray());
    all.writeInt((int) crc.getValue());
    return picture.toByteArray();
  }

  @ParameterizedTest
  @CsvSource({"100000000, 1", "1, 100000000", "65536, 4", "60000, 60000"})
  void aPictureThatSaysItIsVeryLargeIsRefusedBeforeItTakesMemory(int width, int height)
      throws Exception {
    byte[] bomb = png(width, height);
    assertThatThrownBy(() -> Photographs.scaled(bomb))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("too large a picture");
  }

  @Test
  void aPictureOfAnotherKindIsNotRead() throws Exception {
    ByteArrayOutputStream bmp = new ByteArrayOutputStream();
    ImageIO.write(new BufferedImage(2, 2, BufferedImage.TYPE_INT_RGB), "bmp", bmp);
    assertThatThrownBy(() -> Photographs.scaled(bmp.toByteArray()))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("JPEG or PNG");
  }
}
