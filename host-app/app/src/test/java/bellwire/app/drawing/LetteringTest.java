package bellwire.app.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Font;
import java.text.Bidi;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Lines of one text, whatever its scripts. */
class LetteringTest {
  private static final String HEBREW = "\u05d0\u05d3\u05d5\u05dd \u05e2\u05dd \u05e4\u05e1";

  /** UAX 9, P2 and P3: a line by itself would take its direction from its own first letter. */
  @Test
  void aLineThatBeginsWithTheOtherDirectionRunsAsTheWholeDoes() {
    Font font = Lettering.regular(10);
    for (String text :
        List.of(
            "P1 red and P2 " + HEBREW + ": leakage of 300 kohm between " + HEBREW + " and white",
            HEBREW + " P2 white: leakage of 300 kohm, between red and " + HEBREW)) {
      boolean toRight = toRight(text);
      int turned = 0;
      for (int width = 60; width < 200; width += 5) {
        List<String> lines = Lettering.wrap(text, font, width);
        assertThat(lines).hasSizeGreaterThan(1);
        for (String line : lines) {
          String bare = line.replaceAll("[\u200e\u200f]", "");
          turned += toRight(bare) == toRight ? 0 : 1;
          assertThat(toRight(line)).as(line).isEqualTo(toRight);
          assertThat(Lettering.width(bare, font)).isLessThanOrEqualTo(width);
        }
        assertThat(String.join(" ", lines).replaceAll("[\u200e\u200f]", "").replace(" ", ""))
            .isEqualTo(text.replace(" ", ""));
      }
      assertThat(turned).as("lines that would have turned").isPositive();
    }
  }

  private static boolean toRight(String text) {
    return new Bidi(text, Bidi.DIRECTION_DEFAULT_LEFT_TO_RIGHT).baseIsLeftToRight();
  }
}
