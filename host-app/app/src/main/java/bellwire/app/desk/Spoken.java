package bellwire.app.desk;

import javax.accessibility.Accessible;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.JComponent;

/** A component that paints itself, and says in words what it shows. */
public abstract class Spoken extends JComponent implements Accessible {
  private static final long serialVersionUID = 1L;

  private final AccessibleRole role;

  /**
   * @param role what it is to somebody who can't see it
   */
  protected Spoken(AccessibleRole role) {
    this.role = role;
  }

  /** What it shows now; empty where that is set as its accessible description. */
  protected String words() {
    return "";
  }

  @Override
  public AccessibleContext getAccessibleContext() {
    if (accessibleContext == null) {
      accessibleContext = new Words();
    }
    return accessibleContext;
  }

  private final class Words extends AccessibleJComponent {
    private static final long serialVersionUID = 1L;

    @Override
    public AccessibleRole getAccessibleRole() {
      return role;
    }

    @Override
    public String getAccessibleDescription() {
      String now = words();
      return now.isEmpty() ? super.getAccessibleDescription() : now;
    }
  }
}
