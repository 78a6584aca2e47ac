package bellwire.analysis.landing;

import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Load;
import java.util.Collection;

/**
 * What an equipment does with some of its loads pulled in.
 *
 * @param heat greatest stage of heat, 0 for none
 * @param compressor greatest stage of compressor, 0 while its first stage is not on
 * @param cools whether the compressor, running, cools the house
 */
record Effects(int heat, int compressor, boolean cools, boolean fan, boolean accessory) {

  /**
   * @param equipment as intended: says which valve there is
   * @param on the loads pulled in
   */
  static Effects of(Equipment equipment, Collection<Load> on) {
    int heat = 0;
    int first = 0;
    int compressor = 0;
    boolean fan = false;
    boolean accessory = false;
    boolean cooling = false;
    boolean heating = false;
    for (Load load : on) {
      switch (load.role()) {
        case HEAT -> heat = Math.max(heat, load.stage());
        case COMPRESSOR -> {
          first = load.stage() == 1 ? 1 : first;
          compressor = Math.max(compressor, load.stage());
        }
        case FAN -> fan = true;
        case VALVE_COOLING -> cooling = true;
        case VALVE_HEATING -> heating = true;
        case HUMIDIFIER, VENTILATION -> accessory = true;
        case NONE -> {}
      }
    }
    boolean cools = has(equipment, Load.Role.VALVE_COOLING) ? cooling : !heating;
    return new Effects(heat, first == 0 ? 0 : compressor, cools, fan, accessory);
  }

  static boolean has(Equipment equipment, Load.Role role) {
    return equipment.all(Load.class).stream().anyMatch(l -> l.role() == role);
  }

  boolean heats() {
    return heat > 0 || (compressor > 0 && !cools);
  }

  boolean nothing() {
    return heat == 0 && compressor == 0 && !fan && !accessory;
  }
}
