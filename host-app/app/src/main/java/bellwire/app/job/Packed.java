package bellwire.app.job;

import java.nio.ByteBuffer;
import java.util.Arrays;
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

  static Packed of(Place place, ByteSink content) {
    byte[] plain = content.taken();
    if (plain.length > MOST_BYTES) {
      throw new IllegalArgumentException("payload too long: bytes=" + plain.length);
    }
    Deflater deflater = new Deflater(Deflater.DEFAULT_COMPRESSION, true);
    try {
      // Noise has short repetitions, and to name them takes more than their bytes.
      deflater.setStrategy(Deflater.FILTERED);
      byte[] room = new byte[plain.length + plain.length / 1000 + SPARE_BYTES];
      // The call that takes up a strategy does not do what else it is asked for.
      deflater.deflate(room, 0, room.length, Deflater.NO_FLUSH);
      ByteSink sink = new ByteSink();
      sink.number(plain.length);
      int begin = 0;
      for (int cut : content.cuts()) {
        deflater.setInput(plain, begin, cut - begin);
        flush(deflater, room, sink);
        begin = cut;
      }
      deflater.setInput(plain, begin, plain.length - begin);
      deflater.finish();
      flush(deflater, room, sink);
      return bare(place, sink.taken());
    } finally {
      deflater.end();
    }
  }

  /** All that was put in; what is put in later gets a code of its own. */
  private static void flush(Deflater deflater, byte[] room, ByteSink sink) {
    int length;
    do {
      length = deflater.deflate(room, 0, room.length, Deflater.SYNC_FLUSH);
      sink.bytes(Arrays.copyOf(room, length));
    } while (length == room.length);
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
