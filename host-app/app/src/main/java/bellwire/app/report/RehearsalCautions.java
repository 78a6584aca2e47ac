package bellwire.app.report;

import java.util.List;

/** What must be read before a control is rehearsed. */
public final class RehearsalCautions {
  /** Below this outdoors a compressor is not run for a test. Common practice, no source. */
  public static final double COLD_CELSIUS = 16;

  /** Controls that the board does not suit, and the signs to know them by. */
  public static final List<String> UNSUITED =
      List.of(
          "A control on a serial bus: two to four terminals marked as a bus, or with numbers, and no"
              + " W, Y or G. What it says is data; there are no calls to watch.",
          "A millivolt control: two terminals alone, to a gas valve whose pilot flame makes its own"
              + " voltage, under 1 V. No transformer anywhere.",
          "A line-voltage control: thick wires under wire nuts in a deep box, 120 V or 230 V on its"
              + " label, heaters along the wall. Never connect it.");

  public static final List<String> BENCH =
      List.of(
          "The control is on the bench or off its wall plate, with nothing of the equipment"
              + " connected.",
          "Connect and change leads only with its supply off.");

  public static final List<String> LIVE =
      List.of(
          "LIVE: the equipment will run. Connect with every supply off and proved dead, lead the"
              + " wires out through the closed door, then switch on.",
          "Defeat no interlock, door switch or limit.",
          "Never run a compressor in the cold, and never against its rest.",
          "Off at the terminal is not stopped: look and listen at every step.");

  public static final String NO_SIGNS = "Does the control show none of the signs above?";

  public static final String HOW_WARM = "How warm is it outdoors? [such as '8 C' or '46 F']";

  private RehearsalCautions() {}

  /** The question after how it was connected. */
  public static String connected(boolean live) {
    return live
        ? "Was everything connected dead, and is the door closed?"
        : "Are all wires of the equipment off the control?";
  }
}
