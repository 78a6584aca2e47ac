package bellwire.simbench.control;

import java.util.List;

/** What equipment a control is made for. Terminals and their use are common practice, no source. */
public enum Kind {
  /** Gas or oil furnace with cooling: the furnace runs its own fan when heating. */
  FURNACE_COOLING("W1", "Y1", "G"),
  /** Electric heat with cooling: the control calls the fan with either. */
  ELECTRIC_HEAT("W1", "Y1", "G"),
  /** Heat pump with electric auxiliary heat, its valve energised in cooling. */
  HEAT_PUMP_O("Y1", "G", "O", "W1"),
  /** Heat pump with electric auxiliary heat, its valve energised in heating. */
  HEAT_PUMP_B("Y1", "G", "B", "W1"),
  /** Furnace and cooling of two stages each. */
  TWO_STAGE("W1", "W2", "Y1", "Y2", "G"),
  /** Heat pump, valve energised in cooling, with a furnace that never runs beside it. */
  DUAL_FUEL("Y1", "G", "O", "W1"),
  /** Heat only; cooling and fan terminals are there and stay open. */
  HEAT_ONLY("W1", "Y1", "G"),
  /** A boiler's dry contact. */
  BOILER_DRY("W1"),
  /** Input of a zone panel. */
  ZONE_PANEL("W1", "Y1", "G"),
  /** Furnace and cooling on a transformer each: W1 fed from RH, Y1 and G from RC. */
  TWO_SUPPLIES("W1", "Y1", "G");

  private final List<String> terminals;

  Kind(String... terminals) {
    this.terminals = List.of(terminals);
  }

  /** Its terminals, in the order of a rehearsal's leads. */
  public List<String> terminals() {
    return terminals;
  }

  /** Whether it calls a compressor, which must rest. */
  public boolean cools() {
    return this != HEAT_ONLY && this != BOILER_DRY;
  }

  /** Whether its compressor also heats. */
  public boolean heatPump() {
    return this == HEAT_PUMP_O || this == HEAT_PUMP_B || this == DUAL_FUEL;
  }

  /** Whether heat of a second stage or an auxiliary comes beside or instead of the first. */
  public boolean secondHeat() {
    return this == TWO_STAGE || heatPump();
  }

  /** Whether emergency heat can be chosen. */
  public boolean emergency() {
    return heatPump();
  }

  /** Whether it calls the fan together with W1. */
  boolean fanWithW1() {
    return this == ELECTRIC_HEAT || this == HEAT_PUMP_O || this == HEAT_PUMP_B;
  }

  /** The terminal of its reversing valve, empty for none. */
  String valve() {
    return this == HEAT_PUMP_B ? "B" : heatPump() ? "O" : "";
  }
}
