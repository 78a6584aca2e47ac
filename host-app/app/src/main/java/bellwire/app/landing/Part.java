package bellwire.app.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment;
import bellwire.yaml.FileException;

/**
 * Equipment or a control as a landing names it.
 *
 * @param text a built-in name; or a whole description, several lines that end in a line break
 */
public record Part(String text) {
  /**
   * @param text as above; line breaks and blanks around it are put in order
   */
  public Part {
    String tidy = text.replaceAll("\r\n|[\r\u0085\u2028\u2029]", "\n");
    text = isText(tidy.strip()) ? tidy.stripTrailing() + "\n" : tidy.strip();
  }

  /** Whether a value is a description rather than the name of one. */
  static boolean isText(String value) {
    return value.contains("\n");
  }

  /** Whether it is described here rather than built in. */
  public boolean described() {
    return isText(text);
  }

  /**
   * The equipment that it is.
   *
   * @throws FileException with line and remedy, where it is none
   */
  public Equipment equipment() throws FileException {
    if (!described()) {
      known(Described.EQUIPMENT.contains(text), "equipment");
      return Described.equipment(text);
    }
    return Described.equipment("own equipment", text);
  }

  /**
   * The control that it is.
   *
   * @throws FileException with line and remedy, where it is none
   */
  public Control control() throws FileException {
    if (!described()) {
      known(Described.CONTROLS.contains(text), "control");
      return Described.control(text);
    }
    return Described.control("own control", text);
  }

  private void known(boolean builtIn, String what) throws FileException {
    if (!builtIn) {
      throw new FileException(
          text, 0, "no built-in " + what, "choose one of the list, or describe your own");
    }
  }
}
