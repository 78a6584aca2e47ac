package bellwire.fuzz;

import bellwire.app.landing.Part;
import bellwire.yaml.FileException;
import java.nio.charset.StandardCharsets;

/** Descriptions of equipment and of controls; each text is tried as both. */
final class PartTarget implements Target {

  @Override
  public void take(byte[] input) {
    String text = new String(input, StandardCharsets.UTF_8);
    Part part = new Part(text);
    byte[] lines = part.text().getBytes(StandardCharsets.UTF_8);
    try {
      part.equipment();
    } catch (FileException e) {
      Refusals.check(e, lines);
    }
    try {
      part.control();
    } catch (FileException e) {
      Refusals.check(e, lines);
    }
  }
}
