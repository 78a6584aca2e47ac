package bellwire.link;

import bellwire.link.LinkFormatException.Problem;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.dataformat.cbor.CBORFactory;
import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import com.fasterxml.jackson.dataformat.cbor.CBORParser;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One CBOR item (RFC 8949) as a tree, read within limits. What no message uses (maps, floats, big
 * numbers) is read past and kept as {@link Other}, so that a later protocol may add it.
 */
sealed interface CborItem {

  int MAX_DEPTH = 8;
  int MAX_ITEMS = 40_000;
  int MAX_TEXT = 4096;

  /** RFC 8949, section 3.1 and 3.2.3: kinds of item, and what stands for a length not told. */
  int BYTE_STRING = 2;

  int TEXT_STRING = 3;
  int INDEFINITE = 31;

  /** The factory that every item is read and written with. */
  CBORFactory FACTORY =
      CBORFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(MAX_DEPTH)
                  .maxStringLength(FrameCodec.MAX_ITEM_BYTES)
                  .maxNameLength(MAX_TEXT)
                  .maxNumberLength(64)
                  .maxDocumentLength(FrameCodec.MAX_ITEM_BYTES)
                  .build())
          // The library's own defaults depart from RFC 8949 in these: a negative big number read
          // one
          // off, a simple value read as a number.
          .enable(CBORParser.Feature.DECODE_USING_STANDARD_NEGATIVE_BIGINT_ENCODING)
          .enable(CBORParser.Feature.READ_SIMPLE_VALUE_AS_EMBEDDED_OBJECT)
          .enable(CBORGenerator.Feature.ENCODE_USING_STANDARD_NEGATIVE_BIGINT_ENCODING)
          .build();

  record Whole(long value) implements CborItem {}

  record Flag(boolean value) implements CborItem {}

  record Text(String value) implements CborItem {}

  /**
   * @param tag the innermost tag, −1 for none
   */
  record Bytes(int tag, byte[] value) implements CborItem {}

  record Array(List<CborItem> items) implements CborItem {}

  record Other(String kind) implements CborItem {}

  /** Reads the one item that the bytes hold. */
  static CborItem read(byte[] bytes) throws LinkFormatException {
    if (bytes.length > FrameCodec.MAX_ITEM_BYTES) {
      throw new LinkFormatException(Problem.SIZE, "item too long: length=" + bytes.length);
    }
    refuseTornStrings(bytes);
    try (CBORParser parser = FACTORY.createParser(bytes)) {
      JsonToken first = parser.nextToken();
      CborItem item = new Reader(parser).item(first, 0);
      if (parser.nextToken() != null) {
        throw new LinkFormatException(Problem.CBOR, "bytes left behind the message");
      }
      return item;
    } catch (IOException | RuntimeException e) {
      // The parser is not specified to keep to IOException on hostile bytes.
      LinkFormatException bad =
          new LinkFormatException(
              Problem.CBOR, "not a CBOR item within limits: cause=" + e.getClass().getSimpleName());
      bad.initCause(e);
      throw bad;
    }
  }

  /**
   * Refuses a string that says it is longer than what there is: the parser makes room for a quarter
   * of a megabyte before it notices, and a hostile end could ask for that thousands of times a
   * second. What is wrong otherwise the parser finds.
   */
  private static void refuseTornStrings(byte[] bytes) throws LinkFormatException {
    int at = 0;
    while (at < bytes.length) {
      int major = (bytes[at] & 0xFF) >> 5;
      int more = bytes[at] & 0x1F;
      at++;
      int wide = more < 24 ? 0 : more < 28 ? 1 << (more - 24) : -1;
      if ((wide < 0 && more != INDEFINITE) || wide > bytes.length - at) {
        return;
      }
      long argument = more < 24 ? more : 0;
      for (int i = 0; i < wide; i++) {
        argument = argument << 8 | (bytes[at++] & 0xFF);
      }
      if (more != INDEFINITE && (major == BYTE_STRING || major == TEXT_STRING)) {
        if (argument < 0 || argument > bytes.length - at) {
          throw new LinkFormatException(
              Problem.CBOR, "a string is longer than the message: length=" + argument);
        }
        at += (int) argument;
      }
    }
  }

  /** Lengths definite, numbers the shortest: RFC 8949, section 4.2.1. */
  static byte[] write(CborItem item) {
    ByteArrayOutputStream out = new ByteArrayOutputStream(64);
    try (CBORGenerator generator = FACTORY.createGenerator(out)) {
      write(item, generator);
    } catch (IOException e) {
      throw new UncheckedIOException(e); // memory does not fail so
    }
    return out.toByteArray();
  }

  private static void write(CborItem item, CBORGenerator generator) throws IOException {
    if (item instanceof Whole whole) {
      generator.writeNumber(whole.value());
    } else if (item instanceof Flag flag) {
      generator.writeBoolean(flag.value());
    } else if (item instanceof Text text) {
      generator.writeString(text.value());
    } else if (item instanceof Bytes bytes) {
      if (bytes.tag() >= 0) {
        generator.writeTag(bytes.tag());
      }
      generator.writeBinary(bytes.value());
    } else if (item instanceof Array array) {
      generator.writeStartArray(null, array.items().size());
      for (CborItem inner : array.items()) {
        write(inner, generator);
      }
      generator.writeEndArray();
    } else {
      throw new IllegalArgumentException("item=" + item);
    }
  }

  /** Counts what it has read, so that a small frame can't grow into a large tree. */
  final class Reader {
    private final CBORParser parser;
    private int count;

    private Reader(CBORParser parser) {
      this.parser = parser;
    }

    private CborItem item(@Nullable JsonToken token, int depth)
        throws IOException, LinkFormatException {
      if (token == null) {
        throw new LinkFormatException(Problem.CBOR, "the message breaks off");
      }
      if (++count > MAX_ITEMS || depth > MAX_DEPTH) {
        throw new LinkFormatException(
            Problem.SIZE, "message too large or too deep: items=" + count + " depth=" + depth);
      }
      return switch (token) {
        case START_ARRAY -> array(depth);
        case START_OBJECT -> skipMap(depth);
        case VALUE_NUMBER_INT ->
            parser.getNumberType() == JsonParser.NumberType.BIG_INTEGER
                ? new Other("big number")
                : new Whole(parser.getLongValue());
        case VALUE_TRUE -> new Flag(true);
        case VALUE_FALSE -> new Flag(false);
        case VALUE_STRING -> text();
        case VALUE_EMBEDDED_OBJECT -> bytes();
        case VALUE_NUMBER_FLOAT, VALUE_NULL -> new Other(token.name());
        default -> throw new LinkFormatException(Problem.CBOR, "unexpected token=" + token);
      };
    }

    private CborItem array(int depth) throws IOException, LinkFormatException {
      List<CborItem> items = new ArrayList<>();
      JsonToken token = parser.nextToken();
      while (token != JsonToken.END_ARRAY) {
        items.add(item(token, depth + 1));
        token = parser.nextToken();
      }
      return new Array(items);
    }

    private CborItem skipMap(int depth) throws IOException, LinkFormatException {
      JsonToken token = parser.nextToken();
      while (token != JsonToken.END_OBJECT) {
        if (token == null) {
          throw new LinkFormatException(Problem.CBOR, "the message breaks off");
        }
        item(parser.nextToken(), depth + 1);
        token = parser.nextToken();
      }
      return new Other("map");
    }

    private CborItem text() throws IOException, LinkFormatException {
      String value = parser.getText();
      if (value.length() > MAX_TEXT) {
        throw new LinkFormatException(Problem.SIZE, "text too long: length=" + value.length());
      }
      return new Text(value);
    }

    private CborItem bytes() throws IOException {
      int tag = parser.getCurrentTag();
      return parser.getEmbeddedObject() instanceof byte[]
          ? new Bytes(tag, parser.getBinaryValue())
          : new Other("simple value");
    }
  }
}
