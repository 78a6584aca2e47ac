package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JToggleButton;
import javax.swing.JToolTip;
import javax.swing.plaf.basic.BasicHTML;
import javax.swing.table.DefaultTableCellRenderer;
import org.junit.jupiter.api.Test;

class PlainTextUITest {
  private static final String PAGE = "<html><img src='http://x.invalid/a.png'><b>x";

  /** A view is what Swing sets as HTML. */
  private static void assertPlain(JComponent component) {
    assertThat(component.getClientProperty(BasicHTML.propertyKey)).isNull();
  }

  @Test
  void aTextThatBeginsLikeAPageIsShownAsText() {
    Look.apply(Theme.LIGHT, 100);
    JToolTip tip = new JToolTip();
    tip.setTipText(PAGE);
    JLabel later = new JLabel();
    later.setText(PAGE);
    for (JComponent each :
        List.of(new JLabel(PAGE), later, new JButton(PAGE), new JCheckBox(PAGE), tip)) {
      assertPlain(each);
      each.updateUI();
      assertPlain(each);
    }
    assertPlain(new JToggleButton(PAGE));
    assertPlain(
        (JComponent)
            new DefaultListCellRenderer()
                .getListCellRendererComponent(new JList<>(), PAGE, 0, false, false));
    DefaultTableCellRenderer cell = new DefaultTableCellRenderer();
    cell.setText(PAGE);
    assertPlain(cell);
  }
}
