package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.Mode;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Fuse;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.FuseResult;
import bellwire.analysis.loop.StateResult.LoadResult;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * What a person without tools would notice about an installation that is not as intended. Every
 * state is tried from sound fuses, and taken as it is once those have opened that open for certain.
 */
public final class SymptomReader {

  /** Overload from which a transformer is hot for certain, times its rating (CP). */
  private static final double HOT = 1.25;

  /** Share of its pick-up voltage from which an armature that stays open hums (CP). */
  private static final double HUMMING = 0.5;

  private final Installation intended;

  /**
   * @param intended as it should be: says what is wanted
   */
  public SymptomReader(Installation intended) {
    this.intended = intended;
  }

  /**
   * What shows.
   *
   * @param shown for certain
   * @param implied for certain too, and seldom told of beside a greater one that is shown
   * @param doubtful may show or not
   */
  public record Reading(Set<Symptom> shown, Set<Symptom> implied, Set<Symptom> doubtful) {
    public Reading {
      shown = Set.copyOf(shown);
      implied = Set.copyOf(implied);
      doubtful = Set.copyOf(doubtful);
    }

    /** All that shows for certain. */
    public Set<Symptom> certain() {
      Set<Symptom> certain = EnumSet.noneOf(Symptom.class);
      certain.addAll(shown);
      certain.addAll(implied);
      return certain;
    }
  }

  /** Symptoms that this control and equipment can show at all, whatever is wrong. */
  public Set<Symptom> possible() {
    Set<Symptom> possible = EnumSet.allOf(Symptom.class);
    possible.removeIf(s -> !possible(s));
    return possible;
  }

  /** Symptoms of an installation; none where all is well. */
  public Reading read(Installation installation) {
    return read(new Simulation(installation));
  }

  /** The same, where the installation has been simulated already. */
  public Reading read(Simulation simulation) {
    List<StateResult> fresh = new ArrayList<>();
    List<StateResult> after = new ArrayList<>();
    for (State state : intended.control().states()) {
      fresh.add(simulation.state(state));
      after.add(simulation.afterFuses(state));
    }
    Set<Symptom> least = symptoms(after, false);
    Set<Symptom> most = symptoms(after, true);
    Set<Symptom> shown = EnumSet.noneOf(Symptom.class);
    shown.addAll(least);
    shown.retainAll(most);
    Set<Symptom> doubtful = EnumSet.noneOf(Symptom.class);
    doubtful.addAll(least);
    doubtful.addAll(most);
    fuses(fresh, shown, doubtful);
    supplies(after, shown, doubtful);
    doubtful.removeAll(shown);
    Set<Symptom> implied = Implied.by(shown);
    shown.removeAll(implied);
    return new Reading(shown, implied, doubtful);
  }

  /**
   * @param doubtfulRun whether loads that may pull in or not are taken to
   */
  private Set<Symptom> symptoms(List<StateResult> results, boolean doubtfulRun) {
    Set<String> everOn = new HashSet<>();
    for (StateResult result : results) {
      result.loads().stream()
          .filter(l -> on(l, doubtfulRun))
          .forEach(l -> everOn.add(l.load().name()));
    }
    Set<Symptom> found = EnumSet.noneOf(Symptom.class);
    boolean nothing = true;
    for (StateResult result : results) {
      boolean rest = result.state().call() == Call.NONE;
      List<Load> on =
          result.loads().stream()
              .filter(
                  l -> on(l, doubtfulRun) || (rest && everOn.contains(l.load().name()) && l.held()))
              .map(LoadResult::load)
              .toList();
      Effects is = Effects.of(intended.equipment(), on);
      nothing &= is.nothing();
      new StateSymptoms(intended.equipment(), result.state(), is, found).add();
      armatures(result, found);
    }
    if (nothing && possible(Symptom.NOTHING_WORKS)) {
      found.add(Symptom.NOTHING_WORKS);
    }
    return found;
  }

  private static boolean on(LoadResult load, boolean doubtfulRun) {
    return load.energised() == Energised.ON || (doubtfulRun && load.energised() != Energised.OFF);
  }

  private static void armatures(StateResult result, Set<Symptom> found) {
    for (LoadResult l : result.loads()) {
      boolean armature =
          switch (l.load().kind()) {
            case CONTACTOR, RELAY, GAS_VALVE, REVERSING_VALVE -> true;
            case BOARD_INPUT, MOTOR, ACCESSORY -> false;
          };
      if (l.energised() == Energised.CHATTERS) {
        found.add(Symptom.CHATTERS);
      }
      boolean starved =
          l.energised() == Energised.DOUBTFUL
              || (l.energised() == Energised.OFF && l.volts() > HUMMING * l.load().pickUpVolts());
      if (armature && starved) {
        found.add(Symptom.HUMS);
      }
    }
  }

  private static void fuses(List<StateResult> fresh, Set<Symptom> shown, Set<Symptom> doubtful) {
    for (StateResult result : fresh) {
      Symptom symptom = fuseSymptom(result.state());
      for (FuseResult fuse : result.fuses()) {
        if (fuse.opens().certain()) {
          shown.add(symptom);
        } else if (fuse.opens().possible()) {
          doubtful.add(symptom);
        }
      }
    }
  }

  private static Symptom fuseSymptom(State state) {
    if (state.call() == Call.FAN) {
      return Symptom.FUSE_OPENS_ON_FAN;
    }
    return switch (state.mode()) {
      case OFF -> Symptom.FUSE_OPENS_AT_ONCE;
      case HEAT, EMERGENCY -> Symptom.FUSE_OPENS_ON_HEAT;
      case COOL -> Symptom.FUSE_OPENS_ON_COOLING;
    };
  }

  private static void supplies(List<StateResult> after, Set<Symptom> shown, Set<Symptom> doubtful) {
    for (StateResult result : after) {
      boolean rest = result.state().call() == Call.NONE;
      Symptom hot = rest ? Symptom.TRANSFORMER_HOT : Symptom.TRANSFORMER_HOT_ON_CALL;
      for (StateResult.TransformerResult t : result.transformers()) {
        if (t.amps() > HOT * t.transformer().ratedAmps()) {
          shown.add(hot);
        } else if (t.overloaded()) {
          doubtful.add(hot);
        }
      }
      if (!result.lit()) {
        blank(result.state(), shown, doubtful);
      }
    }
  }

  private static void blank(State state, Set<Symptom> shown, Set<Symptom> doubtful) {
    switch (state.call()) {
      case NONE -> shown.add(Symptom.CONTROL_BLANK);
      case FAN -> doubtful.add(Symptom.CONTROL_BLANK);
      case COOL_1, COOL_2 -> shown.add(Symptom.BLANK_ON_COOLING);
      case HEAT_1, HEAT_2, HEAT_3, EMERGENCY_1, EMERGENCY_2 -> shown.add(Symptom.BLANK_ON_HEAT);
    }
  }

  private boolean possible(Symptom symptom) {
    return switch (symptom) {
      case NOTHING_WORKS -> calls(Call.FAN) || (calls(Call.HEAT_1) && calls(Call.COOL_1));
      case CONTROL_BLANK -> powered();
      case BLANK_ON_HEAT -> powered() && calls(Call.HEAT_1);
      case BLANK_ON_COOLING -> powered() && calls(Call.COOL_1);
      case NO_HEAT -> calls(Call.HEAT_1);
      case NO_COOLING -> calls(Call.COOL_1);
      case ONLY_FAN_ON_HEAT, NO_FAN_ON_HEAT -> calls(Call.HEAT_1) && has(Load.Role.FAN);
      case ONLY_FAN_ON_COOLING, NO_FAN_ON_COOLING -> calls(Call.COOL_1) && has(Load.Role.FAN);
      case NO_FAN -> calls(Call.FAN) && has(Load.Role.FAN);
      case NO_SECOND_STAGE_OF_COOLING, SECOND_STAGE_OF_COOLING_AT_ONCE ->
          calls(Call.COOL_2) && wanted(Call.COOL_2).compressor() > 1;
      case NO_SECOND_STAGE_OF_HEAT -> secondStageOfHeat(Mode.HEAT);
      case NO_SECOND_STAGE_IN_EMERGENCY -> secondStageOfHeat(Mode.EMERGENCY);
      case SECOND_STAGE_OF_HEAT_AT_ONCE ->
          secondStageOfHeat(Mode.HEAT) || secondStageOfHeat(Mode.EMERGENCY);
      case NO_AUXILIARY_HEAT, AUXILIARY_HEAT_TOO_SOON -> auxiliary();
      case NO_EMERGENCY_HEAT -> calls(Call.EMERGENCY_1);
      case OUTDOOR_UNIT_IN_EMERGENCY -> calls(Call.EMERGENCY_1) && has(Load.Role.COMPRESSOR);
      case FAN_ALWAYS_ON -> has(Load.Role.FAN);
      case OUTDOOR_UNIT_ALWAYS_ON -> has(Load.Role.COMPRESSOR);
      case HEAT_ALWAYS_ON -> has(Load.Role.HEAT);
      case COOLS_ON_HEAT -> calls(Call.HEAT_1) && has(Load.Role.COMPRESSOR);
      case HEATS_ON_COOLING -> calls(Call.COOL_1) && (has(Load.Role.HEAT) || calls(Call.HEAT_1));
      case HEAT_ON_FAN -> calls(Call.FAN) && has(Load.Role.HEAT);
      case OUTDOOR_UNIT_ON_FAN -> calls(Call.FAN) && has(Load.Role.COMPRESSOR);
      case OUTDOOR_UNIT_ON_HEAT -> auxiliary() && has(Load.Role.COMPRESSOR);
      case HEATS_AND_COOLS -> has(Load.Role.HEAT) && has(Load.Role.COMPRESSOR);
      case FUSE_OPENS_AT_ONCE -> fused();
      case FUSE_OPENS_ON_HEAT -> fused() && calls(Call.HEAT_1);
      case FUSE_OPENS_ON_COOLING -> fused() && calls(Call.COOL_1);
      case FUSE_OPENS_ON_FAN -> fused() && calls(Call.FAN);
      case TRANSFORMER_HOT, TRANSFORMER_HOT_ON_CALL, CHATTERS, HUMS -> true;
      case ACCESSORY_ALWAYS_ON, NO_ACCESSORY ->
          has(Load.Role.HUMIDIFIER) || has(Load.Role.VENTILATION);
    };
  }

  private boolean powered() {
    return intended.control().supply().kind() != Control.Supply.Kind.BATTERY;
  }

  private boolean fused() {
    return !intended.equipment().all(Fuse.class).isEmpty()
        || intended.equipment().all(bellwire.analysis.loop.Transformer.class).stream()
            .anyMatch(t -> t.breakerAmps() > 0);
  }

  private boolean calls(Call call) {
    return intended.control().states().stream().anyMatch(s -> s.call() == call);
  }

  private boolean has(Load.Role role) {
    return Effects.has(intended.equipment(), role);
  }

  private Effects wanted(Call call) {
    Equipment equipment = intended.equipment();
    return StateSymptoms.effects(equipment, equipment.wantedOn(call).must());
  }

  private boolean secondStageOfHeat(Mode mode) {
    return intended.control().states().stream()
        .filter(s -> s.mode() == mode && s.call().heats())
        .map(State::call)
        .anyMatch(c -> wanted(c).heat() > 1 || wanted(c).compressor() > 1);
  }

  private boolean auxiliary() {
    return wanted(Call.HEAT_1).heat() == 0
        && intended.control().states().stream()
            .filter(s -> s.mode() == Mode.HEAT && s.call().heats())
            .anyMatch(s -> wanted(s.call()).heat() > 0);
  }
}
