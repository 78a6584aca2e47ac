package bellwire.app.desk.survey;

import bellwire.app.job.ConductorRow;
import javax.swing.DefaultCellEditor;
import javax.swing.JComboBox;
import javax.swing.JTable;
import javax.swing.table.AbstractTableModel;

/** The ports with the colours of their conductors at both ends, edited in place. */
final class ConductorTable extends JTable {
  private static final int PORTS = 16;
  private static final int LETTERS = 60;
  private static final String[] COLUMNS = {"Port", "Colour near", "Colour far", "Note"};
  private static final String[] COLOURS = {
    "",
    "white",
    "red",
    "green",
    "blue",
    "yellow",
    "brown",
    "orange",
    "black",
    "grey",
    "violet",
    "pink",
    "white/blue",
    "white/orange",
    "white/green",
    "white/brown"
  };

  /** What is being typed counts. */
  void flush() {
    if (isEditing()) {
      getCellEditor().stopCellEditing();
    }
  }

  ConductorTable(SurveyState state) {
    super(new Ports(state));
    setName("survey.conductors");
    getAccessibleContext().setAccessibleName("Colours of the conductors by port");
    putClientProperty("terminateEditOnFocusLost", true);
    setFillsViewportHeight(true);
    getColumnModel().getColumn(0).setMaxWidth(90);
    for (int column = 1; column <= 2; column++) {
      JComboBox<String> box = new JComboBox<>(COLOURS);
      box.setEditable(true);
      getColumnModel().getColumn(column).setCellEditor(new DefaultCellEditor(box));
    }
    state.listen(
        () -> {
          if (!isEditing()) {
            repaint();
          }
        });
  }

  private static final class Ports extends AbstractTableModel {
    private final transient SurveyState state;

    Ports(SurveyState state) {
      this.state = state;
    }

    private ConductorRow row(int port) {
      ConductorRow there = state.now().conductors().get(port);
      return there == null ? SurveyState.blank(state.now().cable().id(), port) : there;
    }

    @Override
    public int getRowCount() {
      return PORTS;
    }

    @Override
    public int getColumnCount() {
      return COLUMNS.length;
    }

    @Override
    public String getColumnName(int column) {
      return COLUMNS[column];
    }

    @Override
    public boolean isCellEditable(int port, int column) {
      return column > 0 && state.now().cable().id() != 0;
    }

    @Override
    public Object getValueAt(int port, int column) {
      ConductorRow row = row(port);
      return switch (column) {
        case 0 -> "P" + (port + 1);
        case 1 -> row.nearColour();
        case 2 -> row.farColour();
        default -> row.note();
      };
    }

    @Override
    public void setValueAt(Object value, int port, int column) {
      String text = String.valueOf(value).replaceAll("\\p{Cntrl}", " ").strip();
      String tidy = text.length() > LETTERS ? text.substring(0, LETTERS) : text;
      ConductorRow r = row(port);
      // A colour told at one end is that of the other, until it is told otherwise.
      boolean both = column == 1 && r.farColour().equals(r.nearColour());
      state.edit(
          new ConductorRow(
              r.cable(),
              port,
              column == 1 ? tidy : r.nearColour(),
              column == 2 || both ? tidy : r.farColour(),
              column == 3 ? tidy : r.note()));
    }
  }
}
