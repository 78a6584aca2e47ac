package bellwire.hardware.budget;

import bellwire.board.BoardDescription;
import java.util.List;

/** A range's reference resistor: tolerance, and temperature coefficient times temperature. */
final class References {
  private References() {}

  static List<Input> inputs(BoardDescription board, String range) {
    String name = range + "-reference-ohms";
    return List.of(
        new Input(
            "reference resistor",
            Shape.RECTANGULAR,
            board.value(name).tolerance() / board.nominal(name),
            ""),
        new Input(
            "its temperature",
            Shape.PRODUCT,
            board.value(range + "-reference-per-kelvin").tolerance()
                * board.value("board-kelvin").tolerance(),
            ""));
  }
}
