package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import com.fasterxml.jackson.core.JsonParseException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import com.fasterxml.jackson.dataformat.cbor.CBORParser;
import com.fasterxml.jackson.dataformat.cbor.CBORSimpleValue;
import com.fasterxml.jackson.dataformat.cbor.databind.CBORMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The library that messages are read and written with, in the configuration used, against RFC 8949,
 * Appendix A.
 */
class CborVectorsTest {
  private static final HexFormat HEX = HexFormat.of();

  /**
   * Encoding: items that the RFC marks as an encoder's choice but this library writes otherwise.
   * Messages hold none of them.
   */
  private static final Set<String> WRITTEN_OTHERWISE =
      Set.of(
          // floats go out in 64 bits, never shortened
          "f90000",
          "f98000",
          "f93c00",
          "f93e00",
          "f97bff",
          "fa47c35000",
          "fa7f7fffff",
          "f90001",
          "f90400",
          "f9c400",
          "f97c00",
          "f97e00",
          "f9fc00",
          // beyond 63 bits the library always writes a big number with tag 2 or 3
          "1bffffffffffffffff",
          "3bffffffffffffffff",
          // no way to write undefined or a simple value
          "f7",
          "f0",
          "f8ff",
          // chunked strings are never written
          "5f42010243030405ff",
          "7f657374726561646d696e67ff");

  private final ObjectMapper json = new ObjectMapper();
  private final CBORMapper cbor = new CBORMapper(CborItem.FACTORY);

  record Vector(String hex, boolean written, String value) {}

  static Stream<Vector> vectors() throws IOException {
    try (InputStream in = CborVectorsTest.class.getResourceAsStream("rfc8949-appendix-a.txt")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
              .lines()
              .filter(line -> !line.startsWith("#"))
              .map(line -> line.split(" \\| ?", 3))
              .map(cell -> new Vector(cell[0], cell[1].startsWith("="), cell[2].strip()))
              .toList()
              .stream();
    }
  }

  @Test
  void allOfTheAppendixIsThere() throws IOException {
    assertThat(vectors()).hasSize(82);
  }

  @ParameterizedTest
  @MethodSource("vectors")
  void decodes(Vector vector) throws IOException {
    try (CBORParser parser = CborItem.FACTORY.createParser(HEX.parseHex(vector.hex))) {
      if (vector.value.equals("ill-formed")) {
        assertThatExceptionOfType(JsonParseException.class).isThrownBy(parser::nextToken);
        return;
      }
      JsonToken first = parser.nextToken();
      String value = vector.value;
      if (value.startsWith("tag ")) {
        String[] part = value.split(" ", 3);
        assertThat(parser.getCurrentTag()).isEqualTo(Integer.parseInt(part[1]));
        value = part[2];
      }
      if (value.startsWith("simple")) {
        assertThat(parser.getEmbeddedObject()).isInstanceOf(CBORSimpleValue.class);
        assertThat(((CBORSimpleValue) parser.getEmbeddedObject()).getValue())
            .isEqualTo(Integer.parseInt(value.substring(7)));
      } else if (value.startsWith("bytes")) {
        assertThat(first).isEqualTo(JsonToken.VALUE_EMBEDDED_OBJECT);
        assertThat(HEX.formatHex(parser.getBinaryValue())).isEqualTo(value.substring(5).strip());
      } else {
        JsonNode found = cbor.readTree(parser);
        assertThat(found.equals(CborVectorsTest::compare, expected(value)))
            .as("found=%s", found)
            .isTrue();
      }
      assertThat(parser.nextToken()).isNull();
    }
  }

  @ParameterizedTest
  @MethodSource("vectors")
  void encodes(Vector vector) throws IOException {
    if (!vector.written || WRITTEN_OTHERWISE.contains(vector.hex)) {
      return;
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (CBORGenerator generator = CborItem.FACTORY.createGenerator(out)) {
      String value = vector.value;
      if (value.startsWith("tag ")) {
        String[] part = value.split(" ", 3);
        generator.writeTag(Integer.parseInt(part[1]));
        value = part[2];
      }
      if (value.startsWith("bytes")) {
        generator.writeBinary(HEX.parseHex(value.substring(5).strip()));
      } else {
        write(generator, json.readTree(value), vector.hex.equals("a201020304"));
      }
    }
    assertThat(HEX.formatHex(out.toByteArray())).isEqualTo(vector.hex);
  }

  private static void write(CBORGenerator out, JsonNode node, boolean wholeKeys)
      throws IOException {
    if (node.isArray()) {
      out.writeStartArray(null, node.size());
      for (JsonNode inner : node) {
        write(out, inner, wholeKeys);
      }
      out.writeEndArray();
    } else if (node.isObject()) {
      out.writeStartObject(node.size());
      for (var field : List.copyOf(node.properties())) {
        if (wholeKeys) {
          out.writeFieldId(Long.parseLong(field.getKey()));
        } else {
          out.writeFieldName(field.getKey());
        }
        write(out, field.getValue(), wholeKeys);
      }
      out.writeEndObject();
    } else if (node.isTextual()) {
      out.writeString(node.textValue());
    } else if (node.isBoolean()) {
      out.writeBoolean(node.booleanValue());
    } else if (node.isNull()) {
      out.writeNull();
    } else if (node.isBigInteger()) {
      out.writeNumber(node.bigIntegerValue());
    } else if (node.isIntegralNumber()) {
      out.writeNumber(node.longValue());
    } else {
      out.writeNumber(node.doubleValue());
    }
  }

  private JsonNode expected(String value) throws IOException {
    return switch (value) {
      case "undefined" -> json.nullNode(); // as the library reads it
      case "NaN" -> json.getNodeFactory().numberNode(Double.NaN);
      case "Infinity" -> json.getNodeFactory().numberNode(Double.POSITIVE_INFINITY);
      case "-Infinity" -> json.getNodeFactory().numberNode(Double.NEGATIVE_INFINITY);
      default -> json.readTree(value);
    };
  }

  /** Numbers of one kind by value, whatever width they are kept in; all else by equality. */
  private static int compare(JsonNode a, JsonNode b) {
    if (a.isIntegralNumber() && b.isIntegralNumber()) {
      BigInteger left = a.bigIntegerValue();
      return left.compareTo(b.bigIntegerValue());
    }
    if (a.isFloatingPointNumber() && b.isFloatingPointNumber()) {
      return Double.compare(a.doubleValue(), b.doubleValue());
    }
    return a.equals(b) ? 0 : 1;
  }
}
