package bellwire.app.drawing;

import java.awt.geom.Rectangle2D;
import org.jspecify.annotations.Nullable;

/** Terminals' levels over time, with steps and bounds. */
public final class TimingDrawing extends PlateDrawing {
  private final TimingModel model;
  private final @Nullable String selectedKey;

  public TimingDrawing(TimingModel model) {
    this(model, null);
  }

  public TimingDrawing(TimingModel model, @Nullable String selectedKey) {
    this.model = model;
    this.selectedKey = selectedKey;
  }

  @Override
  Plate lay(double width) {
    Plate plate = new Plate(width);
    double y = 0;
    for (TimingModel.Lane lane : model.lanes()) {
      plate.text(lane.name(), Lettering.regular(TYPE), 4, y + 14, Plate.Align.LEFT, Palette::ink);
      plate.spot("lane:" + lane.name(), new Rectangle2D.Double(0, y, width, 20), lane.name());
      y += 20;
    }
    plate.height(y + (selectedKey == null ? 0 : 1));
    return plate;
  }

  @Override
  public String words() {
    return model.lanes().size() + " terminals";
  }
}
