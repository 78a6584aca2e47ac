package bellwire.app.desk;

import bellwire.app.drawing.Spot;
import java.util.Locale;
import javax.accessibility.Accessible;
import javax.accessibility.AccessibleAction;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.accessibility.AccessibleState;
import javax.accessibility.AccessibleStateSet;
import org.jspecify.annotations.Nullable;

/** A spot of a drawing for those who don't see it: its words, and the press that chooses it. */
final class AccessibleSpot extends AccessibleContext implements Accessible, AccessibleAction {
  private final DrawingPanel panel;
  private final Spot spot;
  private final int index;

  AccessibleSpot(DrawingPanel panel, Spot spot, int index) {
    this.panel = panel;
    this.spot = spot;
    this.index = index;
    setAccessibleName(spot.words());
    setAccessibleParent(panel);
  }

  @Override
  public AccessibleContext getAccessibleContext() {
    return this;
  }

  @Override
  public AccessibleRole getAccessibleRole() {
    return AccessibleRole.PUSH_BUTTON;
  }

  @Override
  public AccessibleStateSet getAccessibleStateSet() {
    AccessibleStateSet states =
        new AccessibleStateSet(
            new AccessibleState[] {
              AccessibleState.ENABLED, AccessibleState.VISIBLE, AccessibleState.FOCUSABLE
            });
    if (panel.isFocusOwner() && panel.at().equals(spot.key())) {
      states.add(AccessibleState.FOCUSED);
    }
    return states;
  }

  @Override
  public int getAccessibleIndexInParent() {
    return index;
  }

  @Override
  public int getAccessibleChildrenCount() {
    return 0;
  }

  @Override
  public @Nullable Accessible getAccessibleChild(int i) {
    return null;
  }

  @Override
  public Locale getLocale() {
    return panel.getLocale();
  }

  @Override
  public AccessibleAction getAccessibleAction() {
    return this;
  }

  @Override
  public int getAccessibleActionCount() {
    return 1;
  }

  @Override
  public String getAccessibleActionDescription(int i) {
    return "choose";
  }

  @Override
  public boolean doAccessibleAction(int i) {
    panel.choose(spot);
    return true;
  }
}
