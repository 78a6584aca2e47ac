package bellwire.app.drawing;

import bellwire.app.sheet.SurveySheet.Standing;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Two terminal strips and the conductors between them, as {@link StripsDrawing} draws them. Keys,
 * for what is lit, marked or selected, are those of the drawing's spots: {@code near:R}, {@code
 * far:W1}, {@code conductor:red}, {@code jumper:near:R-RC}.
 *
 * @param nearTitle such as 'equipment'
 * @param farTitle such as 'control'
 * @param near terminals from top to bottom
 * @param strands in the order in which the middle shows them
 * @param lit keys of what carries the current of what is looked at
 * @param marks findings, worst first
 */
public record StripsModel(
    String nearTitle,
    String farTitle,
    List<Clamp> near,
    List<Clamp> far,
    List<Strand> strands,
    List<Jumper> jumpers,
    Set<String> lit,
    List<Mark> marks) {
  /** An end of the cable. */
  public enum Side {
    NEAR,
    FAR;

    /** 'near' or 'far', as keys have it. */
    public String key() {
      return this == NEAR ? "near" : "far";
    }
  }

  /**
   * A terminal.
   *
   * @param letter unique on its strip
   * @param words what it is for, such as 'heat'; may be empty
   */
  public record Clamp(String letter, String words) {}

  /**
   * A conductor.
   *
   * @param name unique
   * @param near letter of its terminal; null where the end is free
   * @param far likewise
   * @param broken whether no current passes
   * @param words what else is to be said of it; may be empty
   */
  public record Strand(
      String name,
      @Nullable String nearColour,
      @Nullable String farColour,
      @Nullable String near,
      @Nullable String far,
      boolean broken,
      String words) {}

  /** A wire between two terminals of one strip. */
  public record Jumper(Side side, String a, String b) {}

  /**
   * A finding's mark.
   *
   * @param key of a terminal, conductor or jumper
   */
  public record Mark(String key, Standing standing, String words) {}

  public StripsModel {
    near = List.copyOf(near);
    far = List.copyOf(far);
    strands = List.copyOf(strands);
    jumpers = List.copyOf(jumpers);
    lit = Set.copyOf(lit);
    marks = List.copyOf(marks);
    letters(near);
    letters(far);
    Set<String> names = new HashSet<>();
    for (Strand strand : strands) {
      if (!names.add(strand.name())) {
        throw new IllegalArgumentException("strand=" + strand.name());
      }
      require(near, strand.near());
      require(far, strand.far());
    }
    for (Jumper jumper : jumpers) {
      require(jumper.side() == Side.NEAR ? near : far, jumper.a());
      require(jumper.side() == Side.NEAR ? near : far, jumper.b());
    }
  }

  private static void letters(List<Clamp> strip) {
    Set<String> letters = new HashSet<>();
    for (Clamp clamp : strip) {
      if (!letters.add(clamp.letter())) {
        throw new IllegalArgumentException("terminal=" + clamp.letter());
      }
    }
  }

  private static void require(List<Clamp> strip, @Nullable String letter) {
    if (letter != null && strip.stream().noneMatch(c -> c.letter().equals(letter))) {
      throw new IllegalArgumentException("terminal=" + letter);
    }
  }

  /** The key of a terminal. */
  public static String clampKey(Side side, String letter) {
    return side.key() + ":" + letter;
  }

  /** The key of a conductor. */
  public static String strandKey(String name) {
    return "conductor:" + name;
  }

  /** The key of a conductor's end, which a landing moves. */
  public static String endKey(Side side, String name) {
    return "end:" + side.key() + ":" + name;
  }

  /** The key of a jumper. */
  public static String jumperKey(Jumper jumper) {
    return "jumper:" + jumper.side().key() + ":" + jumper.a() + "-" + jumper.b();
  }
}
