package bellwire.app.document.block;

import java.text.Bidi;
import java.util.List;

/**
 * Text in one style.
 *
 * @param struck crossed out: it was withdrawn, and is still there to be read
 */
public record Span(String text, boolean bold, boolean struck, Tone tone) {
  private static final String LEFT_TO_RIGHT = "\u200e";

  /** What colour a text has. Colour never says anything that its words don't. */
  public enum Tone {
    INK,
    FAINT,
    SOUND,
    FAULTY,
    UNDECIDED
  }

  public static Span of(String text) {
    return new Span(text, false, false, Tone.INK);
  }

  public static Span bold(String text) {
    return new Span(text, true, false, Tone.INK);
  }

  public static Span faint(String text) {
    return new Span(text, false, false, Tone.FAINT);
  }

  public static Span struck(String text) {
    return new Span(text, false, true, Tone.FAINT);
  }

  public static Span toned(String text, Tone tone) {
    return new Span(text, true, false, tone);
  }

  public static List<Span> list(String text) {
    return List.of(of(text));
  }

  /**
   * What a person wrote, to stand within a sentence: where it is written from right to left, marks
   * around it (U+200E) keep the sentence's figures out of it.
   */
  public static String own(String text) {
    return Bidi.requiresBidi(text.toCharArray(), 0, text.length())
        ? LEFT_TO_RIGHT + text + LEFT_TO_RIGHT
        : text;
  }

  /** The words alone. */
  public static String words(List<Span> spans) {
    StringBuilder all = new StringBuilder();
    spans.forEach(s -> all.append(s.text()));
    return all.toString();
  }
}
