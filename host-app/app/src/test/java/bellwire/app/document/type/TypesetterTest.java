package bellwire.app.document.type;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.document.block.Span;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/** Text in lines: every script that the fonts have, and those that they lack. */
class TypesetterTest {
  private static final Faces FACES = new Faces();
  private static final Typesetter TYPE = new Typesetter(FACES);

  @AfterAll
  static void close() throws Exception {
    FACES.close();
  }

  private static TextLine line(String text) {
    return TYPE.line(Span.list(text), 10);
  }

  /** What is seen from left to right. */
  private static String seen(TextLine line) {
    StringBuilder out = new StringBuilder();
    for (Piece piece : line.pieces()) {
      if (piece instanceof Piece.Letters letters) {
        out.append(letters.text());
      } else if (piece instanceof Piece.Outline outline) {
        out.append(outline.text());
      }
    }
    return out.toString();
  }

  /**
   * Unicode Standard Annex 9, examples of reordering (rule L2, capitals stand for right-to-left
   * letters): 'car means CAR.' is seen as 'car means RAC.'. From memory; Hebrew letters for
   * capitals.
   */
  @Test
  void bothDirectionsStandAsTheStandardHasThem() {
    assertThat(seen(line("car means \u05d0\u05d1\u05d2.")))
        .isEqualTo("car means \u05d2\u05d1\u05d0.");
    assertThat(seen(line("\u05d0\u05d1 (12) \u05d2"))).isEqualTo("\u05d2 (12) \u05d1\u05d0");
  }

  @Test
  void lettersThatJoinAreDrawnAsOutlines() {
    TextLine line = line("\u0645\u0631\u062d\u0628\u0627");
    assertThat(line.pieces()).hasSize(1).allMatch(p -> p instanceof Piece.Outline);
    Piece.Outline outline = (Piece.Outline) line.pieces().get(0);
    assertThat(outline.outline().getBounds2D().getWidth()).isGreaterThan(10);
    // Joined letters are narrower than the same ones apart.
    double apart =
        outline.text().codePoints().mapToDouble(c -> 10 * FACES.advance(Face.REGULAR, c)).sum();
    assertThat(outline.width()).isLessThan(apart);
  }

  @Test
  void whatNoFontHasIsABoxWithItsNumber() {
    TextLine line = line("a\ud83e\udd84\u0915b");
    assertThat(line.pieces())
        .filteredOn(p -> p instanceof Piece.Missing)
        .extracting(p -> ((Piece.Missing) p).codePoint())
        .containsExactly(0x1f984, 0x915);
    assertThat(line("\u6f22\u5b57").pieces())
        .allMatch(p -> p instanceof Piece.Letters l && l.face() == Face.EAST_ASIAN);
  }

  @Test
  void aFigureKeepsItsUnit() {
    List<TextLine> lines =
        TYPE.lines(Span.list("it has 0.4125 \u00b1 0.0084 ohm more than its fellows"), 10, 90);
    assertThat(lines)
        .extracting(l -> l.text().replace('\u00a0', ' ').strip())
        .contains("0.4125 \u00b1 0.0084", "ohm more than");
  }

  /** Any characters at all, lone surrogates too; seed 20261126. */
  @Test
  void nothingThrowsAndNothingIsWiderThanItsLine() {
    long seed = 20261126;
    System.out.println("TypesetterTest seed=" + seed);
    Random random = new Random(seed);
    int[] from = {0x20, 0x5d0, 0x627, 0x4e00, 0x300, 0x900, 0x1f600, 0xd800, 0x2000, 0x0, 0xac00};
    for (int n = 0; n < 300; n++) {
      StringBuilder text = new StringBuilder();
      for (int i = random.nextInt(60); i >= 0; i--) {
        int start = from[random.nextInt(from.length)];
        text.appendCodePoint(random.nextInt(3) == 0 ? ' ' : start + random.nextInt(48));
      }
      double width = 30 + random.nextInt(200);
      List<TextLine> lines = TYPE.lines(Span.list(text.toString()), 9, width);
      assertThat(lines).isNotEmpty();
      for (TextLine line : lines) {
        boolean one = line.pieces().size() == 1 && line.text().length() <= 2;
        assertThat(one ? 0 : line.width()).as(text.toString()).isLessThan(width + 9);
      }
    }
  }
}
