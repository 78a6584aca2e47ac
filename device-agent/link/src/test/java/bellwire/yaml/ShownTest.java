package bellwire.yaml;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ShownTest {

  @Test
  void anEscapeSequenceIsShownAndNotObeyed() {
    assertThat(Shown.line("a\u001b[2Jb\u009b1mc\r\n"))
        .isEqualTo("a\\u001b[2Jb\\u009b1mc\\u000d\\u000a");
  }

  @Test
  void aTextThatRunsTheOtherWayIsTold() {
    assertThat(Shown.line("gpj.\u202Eexe")).isEqualTo("gpj.\\u202eexe");
  }

  @Test
  void whatPeopleWriteStays() {
    String words = "Größe 0.5 Ω, 水, 👍🏽, a\u200Db";
    assertThat(Shown.line(words)).isEqualTo(words);
  }

  @Test
  void aLongTextIsCutBesideAPairOfSurrogates() {
    assertThat(Shown.line("x".repeat(9) + "👍", 10)).isEqualTo("x".repeat(9) + "…");
    assertThat(Shown.line("\u0000".repeat(11), 14)).isEqualTo("\\u0000\\u0000\\u…");
    assertThat(Shown.line("x".repeat(11), 10)).isEqualTo("x".repeat(10) + "…");
  }

  @Test
  void aFilesMistakeIsToldInOneShortLine() {
    String value = "9\u001b]0;x\u0007".repeat(100_000);
    FileException told = new FileException("a\u001b[1m.yaml", 3, "key=" + value, "use " + value);
    assertThat(told.getMessage())
        .startsWith("a\\u001b[1m.yaml:3: key=9")
        .hasSizeLessThan(1600)
        .matches(text -> text.chars().noneMatch(Shown::steers));
    assertThat(new FileException("x".repeat(40_000), 0, "p", "r").getMessage())
        .hasSizeLessThan(1000);
  }
}
