package bellwire.board;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class BoardDescriptionTest {
  private final BoardDescription board = BoardDescription.revisionA();

  /** Pi4J 2.8.0 keeps one address set for all kinds of I/O. */
  @Test
  void noChipSelectIsAlsoALine() throws IOException {
    List<Integer> lines = new ArrayList<>();
    List<Integer> chipSelects = new ArrayList<>();
    for (Map.Entry<String, JsonNode> entry : file().path("pi").properties()) {
      if (entry.getValue().isObject()) {
        chipSelects.add(board.spi(entry.getKey()).chipSelect());
      } else {
        lines.add(board.line(entry.getKey()));
      }
    }
    assertThat(chipSelects).hasSize(3).doesNotHaveDuplicates();
    assertThat(chipSelects).allMatch(number -> number >= 0 && number <= 2);
    assertThat(lines).hasSize(6).doesNotHaveDuplicates().doesNotContain(0, 1, 2);
    assertThat(lines).doesNotContainAnyElementsOf(chipSelects);
  }

  @Test
  void chainBitsDoNotCollide() throws IOException {
    List<Integer> bits = new ArrayList<>();
    for (int port = 0; port < 17; port++) {
      for (String bus : List.of("drive", "return", "guard")) {
        bits.add(board.chainBit(port, bus));
      }
    }
    JsonNode chain = file().path("chain");
    for (Map.Entry<String, JsonNode> entry : chain.properties()) {
      if (!entry.getKey().equals("chips") && entry.getValue().isInt()) {
        bits.add(board.chainBit(entry.getKey()));
      }
    }
    int length = 8 * chain.path("chips").asInt();
    assertThat(bits).hasSizeGreaterThan(51).doesNotHaveDuplicates();
    assertThat(bits).allMatch(bit -> bit >= 0 && bit < length);
  }

  @Test
  void everyValueHasANominalAndATolerance() throws IOException {
    JsonNode values = file().path("values");
    assertThat(values.size()).isPositive();
    for (Map.Entry<String, JsonNode> entry : values.properties()) {
      assertThat(entry.getValue().path("nominal").isNumber()).as(entry.getKey()).isTrue();
      assertThat(entry.getValue().path("tolerance").isNumber()).as(entry.getKey()).isTrue();
      BoardDescription.Value value = board.value(entry.getKey());
      assertThat(value.tolerance()).as(entry.getKey()).isGreaterThanOrEqualTo(0);
      assertThat(value.nominal()).as(entry.getKey()).isFinite();
    }
  }

  @Test
  void converterInputsDoNotCollide() throws IOException {
    List<Integer> inputs = new ArrayList<>();
    file().path("converter").properties().forEach(e -> inputs.add(e.getValue().asInt()));
    assertThat(inputs).doesNotHaveDuplicates().allMatch(input -> input >= 0 && input < 12);
  }

  /** The file itself, so that nothing in it escapes the check for want of an accessor. */
  private static JsonNode file() throws IOException {
    try (InputStream in = BoardDescription.class.getResourceAsStream("sensing-board-a.yaml")) {
      return new YAMLMapper().readTree(in);
    }
  }
}
