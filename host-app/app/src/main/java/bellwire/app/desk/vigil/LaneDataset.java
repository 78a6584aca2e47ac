package bellwire.app.desk.vigil;

import bellwire.app.vigil.VigilPicture;
import bellwire.app.vigil.VigilPicture.Lane;
import org.jfree.data.DomainOrder;
import org.jfree.data.xy.AbstractXYDataset;

/**
 * A picture's lanes as the chart takes them: a series a lane, an item for its ground, each stretch,
 * each event and each point. Nothing is copied.
 */
final class LaneDataset extends AbstractXYDataset {
  private static final long serialVersionUID = 1L;

  private final transient VigilPicture picture;

  LaneDataset(VigilPicture picture) {
    this.picture = picture;
  }

  VigilPicture picture() {
    return picture;
  }

  Lane lane(int series) {
    return picture.lanes().get(series);
  }

  /** Milliseconds since 1970 UTC of a time of the vigil, as the time axis counts. */
  double millis(long micros) {
    return picture.row().unixMicros(micros) / 1e3;
  }

  @Override
  public int getSeriesCount() {
    return picture.lanes().size();
  }

  @Override
  public Comparable<?> getSeriesKey(int series) {
    return series;
  }

  @Override
  public int getItemCount(int series) {
    Lane lane = lane(series);
    return 1 + lane.stretches().size() + lane.course().points() + lane.events().size();
  }

  /** Where an item begins. */
  @Override
  public double getXValue(int series, int item) {
    Lane lane = lane(series);
    int at = item - 1;
    if (at < 0) {
      return millis(picture.fromMicros());
    }
    if (at < lane.stretches().size()) {
      return millis(lane.stretches().get(at).fromMicros());
    }
    at -= lane.stretches().size();
    if (at < lane.course().points()) {
      return millis(lane.course().micros()[at]);
    }
    return millis(lane.events().get(at - lane.course().points()).firstMicros());
  }

  @Override
  public Number getX(int series, int item) {
    return getXValue(series, item);
  }

  @Override
  public double getYValue(int series, int item) {
    return series;
  }

  @Override
  public Number getY(int series, int item) {
    return series;
  }

  @Override
  public DomainOrder getDomainOrder() {
    return DomainOrder.NONE;
  }
}
