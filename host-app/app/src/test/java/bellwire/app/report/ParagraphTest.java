package bellwire.app.report;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ParagraphTest {

  @Test
  void linesFitEightyColumnsAndHangUnderTheFirst() {
    String words = "seat the clamp afresh, ".repeat(12).strip();
    assertThat(Paragraph.hanging("  - ", words))
        .hasSizeGreaterThan(2)
        .allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(80))
        .first()
        .asString()
        .startsWith("  - seat the");
    assertThat(Paragraph.hanging("  - ", words).stream().skip(1))
        .allSatisfy(line -> assertThat(line).matches(" {4}\\S.*"));
    assertThat(String.join(" ", Paragraph.hanging("", words)).replaceAll(" +", " "))
        .isEqualTo(words);
  }

  @Test
  void aWordLongerThanALineGetsOneOfItsOwn() {
    String path = "/" + "x".repeat(200);
    assertThat(Paragraph.hanging("  ", "file " + path + " end"))
        .containsExactly("  file", "  " + path, "  end");
  }
}
