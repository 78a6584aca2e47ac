package bellwire.app.document;

import java.awt.geom.AffineTransform;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/**
 * How a camera was held: tag 0x0112 of the first image directory in a JPEG's APP1 segment (Exif
 * 2.3, JEITA CP-3451C, 4.6.4 A). From memory.
 */
public final class ExifOrientation {
  private static final int TAG = 0x0112;

  private ExifOrientation() {}

  /** 1 to 8; 1, upright, where nothing is told. */
  public static int of(byte[] file) {
    ByteBuffer in = ByteBuffer.wrap(file);
    if (in.limit() < 4 || in.getShort(0) != (short) 0xFFD8) {
      return 1;
    }
    int at = 2;
    while (at + 4 <= in.limit() && in.get(at) == (byte) 0xFF) {
      int marker = in.get(at + 1) & 0xFF;
      int length = in.getShort(at + 2) & 0xFFFF;
      if (marker == 0xE1 && at + 10 <= in.limit() && in.getInt(at + 4) == 0x45786966) {
        return directory(in, at + 10, Math.min(in.limit(), at + 2 + length));
      }
      if (marker == 0xDA || length < 2) {
        return 1;
      }
      at += 2 + length;
    }
    return 1;
  }

  private static int directory(ByteBuffer in, int start, int end) {
    if (start + 8 > end) {
      return 1;
    }
    in.order(in.getShort(start) == 0x4949 ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
    long at = start + (in.getInt(start + 4) & 0xFFFFFFFFL);
    if (at + 2 > end) {
      return 1;
    }
    int entries = in.getShort((int) at) & 0xFFFF;
    for (int i = 0; i < entries && at + 2 + 12L * (i + 1) <= end; i++) {
      int entry = (int) at + 2 + 12 * i;
      if ((in.getShort(entry) & 0xFFFF) == TAG) {
        int told = in.getShort(entry + 8) & 0xFFFF;
        return told >= 1 && told <= 8 ? told : 1;
      }
    }
    return 1;
  }

  /** Whether the upright picture is as wide as the one that lies is high. */
  public static boolean turned(int orientation) {
    return orientation >= 5;
  }

  /** From a picture of w by h, as it lies, to the upright one. */
  public static AffineTransform upright(int orientation, int w, int h) {
    return switch (orientation) {
      case 2 -> new AffineTransform(-1, 0, 0, 1, w, 0);
      case 3 -> new AffineTransform(-1, 0, 0, -1, w, h);
      case 4 -> new AffineTransform(1, 0, 0, -1, 0, h);
      case 5 -> new AffineTransform(0, 1, 1, 0, 0, 0);
      case 6 -> new AffineTransform(0, 1, -1, 0, h, 0);
      case 7 -> new AffineTransform(0, -1, -1, 0, h, w);
      case 8 -> new AffineTransform(0, -1, 1, 0, 0, w);
      default -> new AffineTransform();
    };
  }
}
