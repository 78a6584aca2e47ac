package bellwire.app.job;

import java.nio.ByteBuffer;
import java.util.zip.CRC32C;
import java.util.zip.DataFormatException;
import java.util.zip.Deflater;
import java.util.zip.Inflater;

/**
 * A payload as it is stored: compressed (RFC 1951), with the CRC-32C of the stored bytes and of the
 * place they belong to, so that a row in another's place is found as well.
 */
final class Packed {
  /** No payload is longer before compression. */
  private static final int MOST_BYTES = 1 << 25;

  /** A length of five numbers' bytes is plenty for {@link #MOST_BYTES}. */
  private static final int SPARE_BYTES = 64;

  /**
   * Where a payload belongs.
   *
   * @param stream of a block or a pyramid's row; of a journal's row the vigil
   * @param level 0 for a block, 1 and more for the pyramid, −1 for the journal
   * @param index of the row on its level
   */
  record Place(long stream, int level, long index) {}

  private final long crc32c;
  private final byte[] payload;

  /**
   * As it was read.
   *
   * @param crc32c checksum over the place's three numbers, then the payload
   * @param payload length before compression, as a number of {@link ByteSink}, then the bytes
   */
  Packed(long crc32c, byte[] payload) {
    this.crc32c = crc32c;
    this.payload = payload;
  }

  long crc32c() {
    return crc32c;
  }

  byte[] payload() {
    return payload;
  }

  static Packed of(Place place, byte[] plain) {
    if (plain.length > MOST_BYTES) {
      throw new IllegalArgumentException("payload too long: bytes=" + plain.length);
    }
    Deflater deflater = new Deflater(Deflater.DEFAULT_COMPRESSION, true);
    try {
      deflater.setInput(plain);
      deflater.finish();
      byte[] room = new byte[plain.length + plain.length / 1000 + SPARE_BYTES];
      int length = 0;
      while (!deflater.finished()) {
        length += deflater.deflate(room, length, room.length - length);
      }
      ByteSink sink = new ByteSink();
      sink.number(plain.length);
      sink.bytes(java.util.Arrays.copyOf(room, length));
      return bare(place, sink.taken());
    } finally {
      deflater.end();
    }
  }

  /** Not compressed. */
  static Packed bare(Place place, byte[] payload) {
    return new Packed(crc(place, payload), payload);
  }

  /** The payload as it was before compression. */
  byte[] plain(Place place) throws Damage {
    check(place);
    ByteSource source = new ByteSource(payload);
    byte[] plain = new byte[source.count(MOST_BYTES)];
    int begin = payload.length;
    for (int i = 0; i < payload.length; i++) {
      if (payload[i] >= 0) {
        begin = i + 1;
        break;
      }
    }
    Inflater inflater = new Inflater(true);
    try {
      inflater.setInput(payload, begin, payload.length - begin);
      if (inflater.inflate(plain) != plain.length) {
        throw new Damage("shorter than it says: bytes=" + plain.length);
      }
      return plain;
    } catch (DataFormatException e) {
      throw new Damage("cannot be decompressed: " + e.getMessage());
    } finally {
      inflater.end();
    }
  }

  /** Fails where the bytes or the place are not those the checksum was made of. */
  void check(Place place) throws Damage {
    if (crc(place, payload) != crc32c) {
      throw new Damage("wrong checksum");
    }
  }

  private static long crc(Place place, byte[] payload) {
    CRC32C crc = new CRC32C();
    crc.update(
        ByteBuffer.allocate(20)
            .putLong(place.stream)
            .putInt(place.level)
            .putLong(place.index)
            .flip());
    crc.update(payload);
    return crc.getValue();
  }
}
