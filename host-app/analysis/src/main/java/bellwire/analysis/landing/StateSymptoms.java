package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control.Mode;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Load;
import java.util.HashSet;
import java.util.Set;

/** What one state shows: what the equipment does against what the call wants. */
final class StateSymptoms {
  private final Equipment equipment;
  private final State state;
  private final Effects is;
  private final Effects must;
  private final Effects may;
  private final Set<Symptom> found;

  /**
   * @param found is added to
   */
  StateSymptoms(Equipment equipment, State state, Effects is, Set<Symptom> found) {
    this.equipment = equipment;
    this.state = state;
    this.is = is;
    this.found = found;
    Equipment.Wanted wanted = equipment.wantedOn(state.call());
    must = effects(equipment, wanted.must());
    Set<String> both = new HashSet<>(wanted.must());
    both.addAll(wanted.may());
    may = effects(equipment, both);
  }

  static Effects effects(Equipment equipment, Set<String> loads) {
    return Effects.of(
        equipment,
        equipment.all(Load.class).stream().filter(l -> loads.contains(l.name())).toList());
  }

  void add() {
    Call call = state.call();
    if (call == Call.NONE) {
      atRest();
    } else if (call == Call.FAN) {
      onFan();
    } else if (call.cools()) {
      onCooling();
    } else if (state.mode() == Mode.EMERGENCY) {
      onEmergency();
    } else {
      onHeat();
    }
    note(is.accessory() && !may.accessory(), ACCESSORY_ALWAYS_ON);
    note(!is.accessory() && must.accessory(), NO_ACCESSORY);
  }

  private void note(boolean shows, Symptom symptom) {
    if (shows) {
      found.add(symptom);
    }
  }

  private void atRest() {
    note(is.fan() && !may.fan(), FAN_ALWAYS_ON);
    note(is.compressor() > 0 && may.compressor() == 0, OUTDOOR_UNIT_ALWAYS_ON);
    note(is.heat() > 0 && may.heat() == 0, HEAT_ALWAYS_ON);
  }

  private void onFan() {
    note(must.fan() && !is.fan(), NO_FAN);
    note(is.heat() > 0 && may.heat() == 0, HEAT_ON_FAN);
    note(is.compressor() > 0 && may.compressor() == 0, OUTDOOR_UNIT_ON_FAN);
  }

  private void onCooling() {
    boolean cools = is.compressor() > 0 && is.cools();
    if (state.call() == Call.COOL_1 && is.compressor() == 0) {
      note(is.fan(), ONLY_FAN_ON_COOLING);
      note(!is.fan() && is.heat() == 0, NO_COOLING);
    }
    note(must.fan() && !is.fan() && is.compressor() > 0, NO_FAN_ON_COOLING);
    note(is.heats(), HEATS_ON_COOLING);
    note(is.heat() > 0 && cools, HEATS_AND_COOLS);
    note(must.compressor() == 2 && is.compressor() == 1, NO_SECOND_STAGE_OF_COOLING);
    note(may.compressor() == 1 && is.compressor() == 2, SECOND_STAGE_OF_COOLING_AT_ONCE);
  }

  private void onHeat() {
    boolean cools = is.compressor() > 0 && is.cools();
    boolean pump = effects(equipment, equipment.wantedOn(Call.HEAT_1).must()).heat() == 0;
    if (state.call() == Call.HEAT_1) {
      note(!is.heats() && !cools && is.fan(), ONLY_FAN_ON_HEAT);
      note(!is.heats() && !cools && !is.fan(), NO_HEAT);
      note(pump && is.heat() > 0, AUXILIARY_HEAT_TOO_SOON);
    } else {
      note(pump && must.heat() > 0 && is.heat() == 0, NO_AUXILIARY_HEAT);
    }
    note(must.fan() && !is.fan() && (is.heats() || cools), NO_FAN_ON_HEAT);
    note(cools, COOLS_ON_HEAT);
    note(cools && is.heat() > 0, HEATS_AND_COOLS);
    note(is.compressor() > 0 && !cools && may.compressor() == 0, OUTDOOR_UNIT_ON_HEAT);
    stagesOfHeat();
  }

  private void onEmergency() {
    note(must.heat() > 0 && is.heat() == 0, NO_EMERGENCY_HEAT);
    note(is.compressor() > 0 && may.compressor() == 0, OUTDOOR_UNIT_IN_EMERGENCY);
    stagesOfHeat();
  }

  private void stagesOfHeat() {
    note(
        (must.heat() == 2 && is.heat() == 1) || (must.compressor() == 2 && is.compressor() == 1),
        state.mode() == Mode.EMERGENCY ? NO_SECOND_STAGE_IN_EMERGENCY : NO_SECOND_STAGE_OF_HEAT);
    note(
        (may.heat() == 1 && is.heat() == 2) || (may.compressor() == 1 && is.compressor() == 2),
        SECOND_STAGE_OF_HEAT_AT_ONCE);
  }
}
