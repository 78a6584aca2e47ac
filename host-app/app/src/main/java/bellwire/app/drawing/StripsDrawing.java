package bellwire.app.drawing;

import java.awt.geom.Rectangle2D;
import org.jspecify.annotations.Nullable;

/** Two terminal strips with the conductors between them. */
public final class StripsDrawing extends PlateDrawing {
  private final StripsModel model;
  private final @Nullable String selectedKey;

  public StripsDrawing(StripsModel model) {
    this(model, null);
  }

  public StripsDrawing(StripsModel model, @Nullable String selectedKey) {
    this.model = model;
    this.selectedKey = selectedKey;
  }

  @Override
  Plate lay(double width) {
    Plate plate = new Plate(width);
    double y = 0;
    for (StripsModel.Strand s : model.strands()) {
      plate.text(s.name(), Lettering.regular(TYPE), 4, y + 14, Plate.Align.LEFT, Palette::ink);
      plate.spot(
          StripsModel.strandKey(s.name()), new Rectangle2D.Double(0, y, width, 20), s.name());
      y += 20;
    }
    plate.height(y + (selectedKey == null ? 0 : 1));
    return plate;
  }

  @Override
  public String words() {
    return model.strands().size() + " conductors";
  }
}
