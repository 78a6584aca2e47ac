package bellwire.app.report;

import java.util.List;

/** What must be read before a board is left to watch for hours. */
public final class VigilCautions {
  public static final List<String> WITHOUT_HEAT =
      List.of(
          "While this vigil lasts the equipment is off: the building has no heat and no cooling.",
          "Where the control itself may be at fault, and the equipment may run, a vigil of the calls"
              + " leaves the heat on: 'bellwire vigil start calls'. Take that one first.",
          "Say who is in the building, and by when the heat has to be back. Infants, the old and the"
              + " sick come to harm sooner; pipes freeze.",
          "Leave a note at the equipment: disconnected for a test, by whom, until when.");

  public static final List<String> LIVE =
      List.of(
          "LIVE: the equipment runs, for hours, with nobody by. Connect with every supply off and"
              + " proved dead, lead the wires out through the closed door, then switch on.",
          "Defeat no interlock, door switch or limit. No survey, continuity, touch or trend on the"
              + " same cable meanwhile: those need it dead.",
          "Leave board, computer and leads dry, off the floor, and out of the reach of children and"
              + " animals.");

  /** Below this outdoors a house without heat may freeze. Common practice, no source. */
  public static final double FROST_CELSIUS = 3;

  public static final String FROST =
      "FROST: outdoors it may get so cold that pipes freeze in a house without heat. Watch the calls"
          + " instead, or stay, and bring the heat back well before.";

  private VigilCautions() {}
}
