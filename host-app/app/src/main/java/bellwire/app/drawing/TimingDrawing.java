package bellwire.app.drawing;

import bellwire.analysis.calls.Level;
import bellwire.app.drawing.TimingModel.Bracket;
import bellwire.app.drawing.TimingModel.Lane;
import bellwire.app.drawing.TimingModel.Stretch;
import bellwire.app.rehearsal.Times;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Terminals' levels over time: on is high and full, weak half as high and striped, off a line, not
 * known hatched. Steps stand along the top; under a lane the bounds that rules set on it, as
 * brackets with what is needed and what was measured. Spots: {@code lane:Y1}, {@code
 * rule:compressor-rest}, {@code step:3} by the step's place in the model.
 */
public final class TimingDrawing extends PlateDrawing {
  private final TimingModel model;
  private final @Nullable String selectedKey;

  public TimingDrawing(TimingModel model) {
    this(model, null);
  }

  /**
   * @param selectedKey a spot's key, null for none
   */
  public TimingDrawing(TimingModel model, @Nullable String selectedKey) {
    this.model = model;
    this.selectedKey = selectedKey;
  }

  @Override
  Plate lay(double width) {
    return new TimingLayout(new Plate(width), model, selectedKey).lay();
  }

  @Override
  public String words() {
    StringBuilder words = new StringBuilder("Levels of the terminals over ");
    words.append(Times.words(model.toMicros() - model.fromMicros())).append('.');
    model.lanes().forEach(lane -> words.append(' ').append(words(model, lane)));
    model.brackets().forEach(b -> words.append(' ').append(words(b)));
    return words.toString();
  }

  static String words(TimingModel model, Lane lane) {
    Level last = Level.UNKNOWN;
    int calls = 0;
    long onMicros = 0;
    for (int i = 0; i < lane.stretches().size(); i++) {
      Stretch s = lane.stretches().get(i);
      if (s.fromMicros() > model.toMicros()) {
        break;
      }
      long end =
          i + 1 < lane.stretches().size()
              ? lane.stretches().get(i + 1).fromMicros()
              : model.toMicros();
      if (end >= model.fromMicros() && s.level() == Level.ON) {
        calls++;
        onMicros +=
            Math.max(
                0, Math.min(end, model.toMicros()) - Math.max(s.fromMicros(), model.fromMicros()));
      }
      last = s.level();
    }
    return String.format(
        Locale.ROOT,
        "%s%s: on %d time%s, %s in all; %s at the end.",
        lane.name(),
        lane.words().isBlank() ? "" : " (" + lane.words() + ")",
        calls,
        calls == 1 ? "" : "s",
        onMicros == 0 ? "0 s" : Times.words(onMicros),
        word(last));
  }

  static String words(Bracket b) {
    return RouteDrawing.sentence(b.words())
        + " Needed "
        + b.need()
        + ", measured "
        + b.measured()
        + ": "
        + b.verdict()
        + ".";
  }

  static String word(Level level) {
    return level == Level.UNKNOWN ? "not known" : level.name().toLowerCase(Locale.ROOT);
  }
}
