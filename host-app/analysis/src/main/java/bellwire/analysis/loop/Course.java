package bellwire.analysis.loop;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.loop.FixPoint.Phase;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.FuseResult;
import bellwire.analysis.loop.StateResult.LoadResult;
import bellwire.analysis.loop.StateResult.TransformerResult;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/** What closing some of the control's contacts comes to; all states that close them share it. */
final class Course {
  private final LoopCircuit circuit;
  private final List<Phase> phases;
  private final Supplier<List<Phase>> held;

  /** The loads that are held. */
  private @Nullable Condition staying;

  private final boolean lit;
  private final double controlVolts;
  private final List<LoadResult> loads;
  private final List<FuseResult> fuses;
  private final List<TransformerResult> transformers;

  /**
   * @param phases from rest
   * @param held from all loads pulled in; asked for where a load's being held is
   */
  Course(LoopCircuit circuit, Equipment equipment, List<Phase> phases, Supplier<List<Phase>> held) {
    this.circuit = circuit;
    this.phases = phases;
    this.held = held;
    boolean anyLit = false;
    double leastVolts = Double.POSITIVE_INFINITY;
    for (Phase phase : phases) {
      anyLit |= phase.lit();
      leastVolts = Math.min(leastVolts, phase.controlVolts());
    }
    lit = anyLit;
    controlVolts = leastVolts;
    List<LoadResult> ofLoads = new ArrayList<>();
    List<FuseResult> ofFuses = new ArrayList<>();
    List<TransformerResult> ofTransformers = new ArrayList<>();
    for (Element element : equipment.elements()) {
      if (element instanceof Load load) {
        ofLoads.add(result(load, ofLoads.size()));
      } else if (element instanceof Fuse f) {
        ofFuses.add(result(f.name(), f.kind(), f.ratedAmps(), amps(f.name())));
      } else if (element instanceof Transformer t) {
        double amps = amps(t.name());
        ofTransformers.add(new TransformerResult(t, amps, t.openVolts() * amps));
      }
    }
    for (TransformerResult t : ofTransformers) {
      Transformer of = t.transformer();
      if (of.breakerAmps() > 0) {
        ofFuses.add(result(of.breakerName(), FuseKind.BREAKER, of.breakerAmps(), t.amps()));
      }
    }
    loads = List.copyOf(ofLoads);
    fuses = List.copyOf(ofFuses);
    transformers = List.copyOf(ofTransformers);
  }

  StateResult of(Control.State state) {
    return new StateResult(
        state, lit, controlVolts, loads, fuses, transformers, phases.size() == 1);
  }

  List<FuseResult> fuses() {
    return fuses;
  }

  /** Where not settled, when the transformers give the most. */
  Condition condition() {
    Condition fullest = phases.get(0).condition();
    double most = 0;
    for (Phase phase : phases) {
      double amps = 0;
      for (TransformerResult t : transformers) {
        int branch = circuit.branch(t.transformer().name());
        amps += branch < 0 ? 0 : phase.solved().amps(branch);
      }
      if (amps > most) {
        most = amps;
        fullest = phase.condition();
      }
    }
    return fullest;
  }

  /** The most of all times. */
  double most(ToDoubleFunction<Solved> of) {
    double most = 0;
    for (Phase phase : phases) {
      most = Math.max(most, of.applyAsDouble(phase.solved()));
    }
    return most;
  }

  /** The time at which a branch carries the most. */
  Solved fullest(int branch) {
    Solved fullest = phases.get(0).solved();
    for (Phase phase : phases) {
      if (phase.solved().amps(branch) > fullest.amps(branch)) {
        fullest = phase.solved();
      }
    }
    return fullest;
  }

  private boolean held(int number) {
    Condition known = staying;
    if (known == null) {
      long stay = -1;
      for (Phase phase : held.get()) {
        stay &= phase.condition().pulledIn();
      }
      known = new Condition(0, stay);
      staying = known;
    }
    return known.pulledIn(number);
  }

  private LoadResult result(Load load, int number) {
    int branch = circuit.branch(load.name());
    double volts = most(s -> s.volts(branch));
    int times = 0;
    for (Phase phase : phases) {
      times += phase.condition().pulledIn(number) ? 1 : 0;
    }
    Energised energised =
        times == phases.size()
            ? Energised.ON
            : times > 0
                ? Energised.CHATTERS
                : volts >= load.holdInVolts() ? Energised.DOUBTFUL : Energised.OFF;
    double amps = most(s -> s.amps(branch));
    return new LoadResult(load, energised, () -> held(number), volts, amps);
  }

  private static FuseResult result(String name, FuseKind kind, double ratedAmps, double amps) {
    return new FuseResult(name, ratedAmps, amps, kind.opening(ratedAmps, amps));
  }

  private double amps(String element) {
    int branch = circuit.branch(element);
    return branch < 0 ? 0 : most(s -> s.amps(branch));
  }
}
