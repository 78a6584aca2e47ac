package bellwire.app.desk.vigil;

import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;

/** The chart by pointer: drag moves, the wheel zooms about the pointer, a click sets the cursor. */
final class StripPointer extends MouseAdapter {
  private static final double ZOOM = 1.25;

  private final StripChart chart;
  private int lastX;
  private boolean dragged;

  StripPointer(StripChart chart) {
    this.chart = chart;
  }

  void install() {
    chart.addMouseListener(this);
    chart.addMouseMotionListener(this);
    chart.addMouseWheelListener(this);
  }

  @Override
  public void mousePressed(MouseEvent e) {
    chart.requestFocusInWindow();
    lastX = e.getX();
    dragged = false;
  }

  @Override
  public void mouseDragged(MouseEvent e) {
    double width = chart.plotWidth();
    if (width > 0 && e.getX() != lastX) {
      dragged = true;
      chart.move((lastX - e.getX()) / Math.max(1, width));
      lastX = e.getX();
    }
  }

  @Override
  public void mouseReleased(MouseEvent e) {
    if (!dragged) {
      chart.cursorTo(e.getX());
    }
  }

  @Override
  public void mouseWheelMoved(MouseWheelEvent e) {
    chart.zoom(Math.pow(ZOOM, e.getPreciseWheelRotation()), e.getX());
  }
}
