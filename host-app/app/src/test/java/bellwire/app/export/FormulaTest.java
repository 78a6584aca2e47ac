package bellwire.app.export;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Formula injection: which beginnings a spreadsheet computes, and the apostrophe before them, after
 * OWASP's page 'CSV Injection'.
 */
class FormulaTest {
  @TempDir Path directory;

  private String written(String value) throws Exception {
    Path file = directory.resolve("t.csv");
    Table table = new Table("t", List.of(new Table.Column("a", Table.Type.TEXT, "")), Map.of());
    try (CsvTable out = new CsvTable(file, table)) {
      out.text(value).endRow();
    }
    String all = Files.readString(file);
    return all.substring("a\r\n".length(), all.length() - 2);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"=HYPERLINK(0)", "+1+cmd", "-1+1", "@SUM(1)", "\t=1", "＝1+1", "＋1", "－1+1", "＠x"})
  void aFormulaIsText(String value) throws Exception {
    assertThat(written(value)).isEqualTo("'" + value);
  }

  @Test
  void aFormulaBehindALineBreakIsTextInQuotationMarks() throws Exception {
    assertThat(written("\r=1")).isEqualTo("\"'\r=1\"");
    assertThat(written("=\"a\",b")).isEqualTo("\"'=\"\"a\"\",b\"");
  }

  @ParameterizedTest
  @ValueSource(strings = {"-1.5", "+2", "-3e-7", "", "red", "18-5", "0.5 ohm"})
  void aNumberAndAWordStayAsTheyAre(String value) throws Exception {
    assertThat(written(value)).isEqualTo(value);
  }
}
