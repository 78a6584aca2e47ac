package bellwire.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The files themselves: complete, readable, and each value with a source and a mark. */
class ReferenceTablesTest {

  static List<String> topics() {
    return ReferenceTables.topics();
  }

  @Test
  void everyFileIsListedAsATopic() throws Exception {
    Path here = directory();
    try (Stream<Path> files = Files.list(here)) {
      List<String> found =
          files
              .map(f -> f.getFileName().toString())
              .filter(f -> f.endsWith(".yaml"))
              .map(f -> f.substring(0, f.length() - ".yaml".length()))
              .sorted()
              .toList();
      assertThat(found).isEqualTo(ReferenceTables.topics());
    }
  }

  @ParameterizedTest
  @MethodSource("topics")
  void everyTableNamesItsSourceAndStatusAndHasRows(String topic) {
    Map<String, Table> tables = ReferenceTables.loadTopic(topic);
    assertThat(tables).isNotEmpty();
    tables
        .values()
        .forEach(
            table -> {
              assertThat(table.source()).as(table.name()).isNotBlank();
              assertThat(table.rows()).as(table.name()).isNotEmpty();
              assertThat(ReferenceTables.load(table.name())).isEqualTo(table);
              table.rows().forEach(row -> assertThat(row.names()).as(table.name()).isNotEmpty());
            });
  }

  @ParameterizedTest
  @MethodSource("topics")
  void aRememberedSourceIsMarkedAsSuch(String topic) {
    ReferenceTables.loadTopic(topic).values().stream()
        .filter(table -> table.source().contains("remembered"))
        .forEach(
            table ->
                assertThat(table.status())
                    .as(table.name())
                    .isIn(Status.REMEMBERED, Status.REMEMBERED_AND_COMPUTED));
  }

  @Test
  void marksThatMayNotDecideSaySo() {
    assertThat(Stream.of(Status.values()).filter(s -> !s.decides()).map(Status::mark))
        .containsExactly("I", "M", "CP");
  }

  @Test
  void decimalsKeepTheDigitsOfTheSource() {
    Row awg20 = ReferenceTables.load("copper/solid-20-celsius").row("awg", "20");
    assertThat(awg20.exact("ohmsPerThousandFeet")).isEqualTo(new BigDecimal("10.15"));
    assertThat(awg20.lastPlace("ohmsPerThousandFeet")).isEqualTo(0.01);
    Row means = ReferenceTables.load("gum/h2-published").row("quantity", "V");
    assertThat(means.exact("value")).isEqualTo(new BigDecimal("4.9990"));
  }

  @Test
  void infinityAndRowsWithAMarkOfTheirOwn() {
    Table discrete = ReferenceTables.load("temporal-logic/discrete");
    assertThat(discrete.row("formula", "once[1,2] a").numbers("robustness")[0])
        .isEqualTo(Double.NEGATIVE_INFINITY);
    assertThat(discrete.row("formula", "a and b").status()).isEqualTo(Status.READ_AND_COMPUTED);
    assertThat(discrete.row("formula", "a or b").status()).isEqualTo(Status.READ);
  }

  @Test
  void mistakesOfTheCallerNameTheirValue() {
    assertThatThrownBy(() -> ReferenceTables.load("copper/gold")).hasMessage("table=copper/gold");
    assertThatThrownBy(() -> ReferenceTables.load("copper")).hasMessage("table=copper");
    assertThatThrownBy(() -> ReferenceTables.load("gold/x")).hasMessage("topic=gold");
    Row e24 = ReferenceTables.load("preferred-numbers/e24").only();
    assertThatThrownBy(() -> e24.number("digits")).hasMessageContaining("is no number: digits=");
    assertThatThrownBy(() -> e24.number("digit")).hasMessageContaining("cell=digit");
  }

  private static Path directory() throws URISyntaxException {
    return Path.of(Objects.requireNonNull(ReferenceTables.class.getResource("copper.yaml")).toURI())
        .getParent();
  }
}
