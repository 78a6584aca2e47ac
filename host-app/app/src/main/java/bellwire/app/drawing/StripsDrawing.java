package bellwire.app.drawing;

import bellwire.app.drawing.StripsModel.Clamp;
import bellwire.app.drawing.StripsModel.Jumper;
import bellwire.app.drawing.StripsModel.Mark;
import bellwire.app.drawing.StripsModel.Side;
import bellwire.app.drawing.StripsModel.Strand;
import org.jspecify.annotations.Nullable;

/**
 * Two terminal strips, the cable's conductors in the middle, jumpers on the outside. Spots, by
 * strip and then by conductor: {@code near:R} a terminal, {@code far:W1}, {@code conductor:red},
 * {@code end:near:red} where a conductor meets its strip, {@code jumper:near:R-RC}.
 */
public final class StripsDrawing extends PlateDrawing {
  private final StripsModel model;
  private final @Nullable String selectedKey;

  public StripsDrawing(StripsModel model) {
    this(model, null);
  }

  /**
   * @param selectedKey a spot's key, null for none
   */
  public StripsDrawing(StripsModel model, @Nullable String selectedKey) {
    this.model = model;
    this.selectedKey = selectedKey;
  }

  @Override
  Plate lay(double width) {
    return new StripsLayout(new Plate(width), model, selectedKey).lay();
  }

  @Override
  public String words() {
    StringBuilder words = new StringBuilder();
    words.append(model.nearTitle()).append(" and ").append(model.farTitle()).append('.');
    model.strands().forEach(s -> words.append(' ').append(words(model, s)));
    model.jumpers().forEach(j -> words.append(' ').append(words(model, j)));
    for (Mark mark : model.marks()) {
      words.append(' ').append(mark.standing().word()).append(": ");
      words.append(RouteDrawing.sentence(mark.words()));
    }
    return words.toString();
  }

  static String words(StripsModel model, Strand s) {
    return s.name()
        + colours(s)
        + ": "
        + at(model.nearTitle(), s.near())
        + ", "
        + at(model.farTitle(), s.far())
        + (s.broken() ? ", broken" : "")
        + lit(model, StripsModel.strandKey(s.name()))
        + marks(model, StripsModel.strandKey(s.name()))
        + "."
        + (s.words().isBlank() ? "" : " " + RouteDrawing.sentence(s.words()));
  }

  private static String colours(Strand s) {
    String near = s.nearColour() == null ? "" : s.nearColour();
    String far = s.farColour() == null ? near : s.farColour();
    if (near.equals(far)) {
      return near.isEmpty() || s.name().contains(near) ? "" : " (" + near + ")";
    }
    return " (" + (near.isEmpty() ? "colour not noted" : near) + ", " + far + " at the far end)";
  }

  private static String at(String strip, @Nullable String letter) {
    return letter == null ? "free at the " + strip : letter + " at the " + strip;
  }

  static String words(StripsModel model, Jumper j) {
    String key = StripsModel.jumperKey(j);
    return "Jumper from "
        + j.a()
        + " to "
        + j.b()
        + " at the "
        + (j.side() == Side.NEAR ? model.nearTitle() : model.farTitle())
        + lit(model, key)
        + marks(model, key)
        + ".";
  }

  static String words(StripsModel model, Side side, Clamp c) {
    StringBuilder landed = new StringBuilder();
    for (Strand s : model.strands()) {
      if (c.letter().equals(side == Side.NEAR ? s.near() : s.far())) {
        landed.append(landed.length() == 0 ? "" : ", ").append(s.name());
      }
    }
    String key = StripsModel.clampKey(side, c.letter());
    return c.letter()
        + (c.words().isBlank() ? "" : " (" + c.words() + ")")
        + " at the "
        + (side == Side.NEAR ? model.nearTitle() : model.farTitle())
        + ": "
        + (landed.length() == 0 ? "nothing landed" : landed)
        + lit(model, key)
        + marks(model, key)
        + ".";
  }

  private static String lit(StripsModel model, String key) {
    return model.lit().contains(key) ? ", carries the current" : "";
  }

  private static String marks(StripsModel model, String key) {
    StringBuilder words = new StringBuilder();
    for (Mark mark : model.marks()) {
      if (mark.key().equals(key)) {
        words.append("; ").append(mark.standing().word()).append(": ").append(mark.words());
      }
    }
    return words.toString();
  }
}
