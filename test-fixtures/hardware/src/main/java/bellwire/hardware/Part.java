package bellwire.hardware;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A part on the board.
 *
 * @param ref its designator
 * @param value null where its line of the parts list says all
 * @param pins the net of each pin; {@link #OPEN} is a pin left free on purpose
 * @param instance the port, lead or the like that its repeated block stands for
 */
public record Part(
    String ref,
    PartLine line,
    @Nullable ValueExpression value,
    Map<String, String> pins,
    String block,
    int sheet,
    @Nullable String instance) {
  public static final String OPEN = "open";

  public String net(String pin) {
    String net = pins.get(pin);
    if (net == null) {
      throw new IllegalArgumentException("part=" + ref + " pin=" + pin);
    }
    return net;
  }
}
