package bellwire.analysis.logic;

import bellwire.analysis.logic.Formula.Atom;
import bellwire.analysis.logic.Formula.Connective;
import bellwire.analysis.logic.Formula.Constant;
import bellwire.analysis.logic.Formula.Edge;
import bellwire.analysis.logic.Formula.Joined;
import bellwire.analysis.logic.Formula.Not;
import bellwire.analysis.logic.Formula.Quantifier;
import bellwire.analysis.logic.Formula.Since;
import bellwire.analysis.logic.Formula.Threshold;
import bellwire.analysis.logic.Formula.Until;
import bellwire.analysis.logic.Formula.WeakUntil;
import bellwire.analysis.logic.Formula.Windowed;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/** The stages of a formula, joined. Equal parts of a formula are one stage. */
final class Network {

  private record Part(Formula formula, boolean firstOnly) {}

  /** An input with the name of its signal. */
  record Input(String signal, InputStage stage) {}

  private final long beginMicros;
  private final List<Stage> stages = new ArrayList<>();
  private final List<Input> inputs = new ArrayList<>();
  private final List<InputStage> constants = new ArrayList<>();
  private final Map<Part, Stage> built = new HashMap<>();
  private final OutputStage output;

  Network(Formula formula, long beginMicros, @Nullable RobustnessSink sink) {
    this.beginMicros = beginMicros;
    Stage top = stage(new Part(formula, sink == null));
    output = new OutputStage(beginMicros, sink);
    stages.add(output);
    top.feed(output, 0);
    built.clear();
    stages.forEach(Network::shorten);
  }

  /** A connective under a window that looks at all moments together need not keep each. */
  private static void shorten(Stage stage) {
    if (stage instanceof JoinStage join
        && join.takers().length == 1
        && join.takers()[0] instanceof FirstStage first
        && first.looksAtAll()) {
      join.keepExtreme(first.every());
    }
  }

  /** A copy with the state of the original, and without its sink. */
  private Network(Network original) {
    beginMicros = original.beginMicros;
    Map<Stage, Integer> places = new IdentityHashMap<>();
    for (Stage stage : original.stages) {
      places.put(stage, stages.size());
      stages.add(stage.clone());
    }
    UnaryOperator<Stage> copyOf = stage -> stages.get(Objects.requireNonNull(places.get(stage)));
    stages.forEach(copy -> copy.rejoin(copyOf));
    for (Input input : original.inputs) {
      inputs.add(new Input(input.signal(), (InputStage) copyOf.apply(input.stage())));
    }
    original.constants.forEach(stage -> constants.add((InputStage) copyOf.apply(stage)));
    output = (OutputStage) stages.get(stages.size() - 1);
  }

  Network copy() {
    return new Network(this);
  }

  List<Input> inputs() {
    return inputs;
  }

  @Nullable Robustness first() {
    return output.first();
  }

  void advance(long micros) {
    constants.forEach(stage -> stage.advance(micros));
    for (int i = 0; i < inputs.size(); i++) {
      inputs.get(i).stage().advance(micros);
    }
  }

  void finish(long endMicros, TraceEnd end) {
    constants.forEach(stage -> stage.finish(endMicros, end));
    inputs.forEach(input -> input.stage().finish(endMicros, end));
  }

  int held() {
    return stages.stream().mapToInt(Stage::held).sum();
  }

  private Stage stage(Part part) {
    Stage known = built.get(part);
    if (known != null) {
      return known;
    }
    Stage made = make(part.formula(), part.firstOnly());
    built.put(part, made);
    return made;
  }

  private Stage make(Formula formula, boolean first) {
    if (formula instanceof Constant constant) {
      InputStage stage = add(new InputStage(beginMicros, null));
      Robustness value = constant.holds() ? Robustness.TRUE : Robustness.FALSE;
      stage.set(value.low(), value.high());
      constants.add(stage);
      return stage;
    } else if (formula instanceof Atom atom) {
      return input(atom.signal(), null);
    } else if (formula instanceof Threshold threshold) {
      return input(threshold.signal(), threshold);
    } else if (formula instanceof Not not) {
      return fed(new NotStage(beginMicros), part(not.operand(), first));
    } else if (formula instanceof Joined joined) {
      JoinStage join = new JoinStage(beginMicros, joined.connective());
      return fed(join, part(joined.left(), first), part(joined.right(), first));
    } else if (formula instanceof Windowed windowed) {
      return windowed(windowed, first);
    } else if (formula instanceof Until until) {
      return until(until.left(), until.bounds(), until.right(), first);
    } else if (formula instanceof WeakUntil until) {
      return weakUntil(until, first);
    } else if (formula instanceof Since since) {
      return since(since, first);
    } else if (formula instanceof Edge edge) {
      return edge(edge, first);
    }
    throw new IllegalArgumentException("formula=" + formula);
  }

  private Stage part(Formula formula, boolean firstOnly) {
    return stage(new Part(formula, firstOnly));
  }

  private Stage input(String signal, @Nullable Threshold threshold) {
    InputStage stage = add(new InputStage(beginMicros, threshold));
    inputs.add(new Input(signal, stage));
    return stage;
  }

  private Stage windowed(Windowed windowed, boolean first) {
    Quantifier quantifier = windowed.quantifier();
    Connective parts = quantifier.every() ? Connective.AND : Connective.OR;
    if (first && windowed.operand() instanceof Joined joined && joined.connective() == parts) {
      // Always of both is both always: each waits for its own operands only.
      Bounds bounds = windowed.bounds();
      return fed(
          new JoinStage(beginMicros, parts),
          part(new Windowed(quantifier, bounds, joined.left()), true),
          part(new Windowed(quantifier, bounds, joined.right()), true));
    }
    Stage operand = part(windowed.operand(), false);
    return window(quantifier, windowed.bounds(), operand, first);
  }

  private Stage window(Quantifier quantifier, Bounds bounds, Stage operand, boolean first) {
    return window(quantifier, bounds, operand, first, bounds.bounded());
  }

  private Stage window(
      Quantifier quantifier, Bounds bounds, Stage operand, boolean first, boolean promise) {
    boolean every = quantifier.every();
    if (quantifier.future() && first) {
      return fed(new FirstStage(beginMicros, every, bounds, promise), operand);
    } else if (quantifier.future() && !bounds.bounded()) {
      return fed(new TailStage(beginMicros, every, bounds.fromMicros()), operand);
    }
    return fed(new WindowStage(beginMicros, every, quantifier.future(), bounds, promise), operand);
  }

  /**
   * With bounds a to b: right comes within a to b, left holds for a, and from then on left until
   * right.
   */
  private Stage until(Formula left, Bounds bounds, Formula right, boolean first) {
    Stage leftPart = part(left, false);
    Stage rightPart = part(right, false);
    long a = bounds.fromMicros();
    long width = bounds.bounded() ? bounds.toMicros() - a : Bounds.UNBOUNDED;
    Stage result = fed(new UntilStage(beginMicros, a, width, false, first), leftPart, rightPart);
    if (a > 0) {
      Bounds before = new Bounds(0, a - 1);
      result = both(result, window(Quantifier.ALWAYS, before, leftPart, first, bounds.bounded()));
    }
    if (bounds.bounded()) {
      result = both(result, window(Quantifier.EVENTUALLY, bounds, rightPart, first));
    }
    return result;
  }

  private Stage weakUntil(WeakUntil until, boolean first) {
    Bounds bounds = until.bounds();
    Stage left = part(until.left(), false);
    long a = bounds.fromMicros();
    if (bounds.bounded()) {
      Stage strong = until(until.left(), bounds, until.right(), first);
      Stage holds = window(Quantifier.ALWAYS, Bounds.within(bounds.toMicros()), left, first);
      return fed(new JoinStage(beginMicros, Connective.OR), holds, strong);
    }
    UntilStage stage = new UntilStage(beginMicros, a, Bounds.UNBOUNDED, true, first);
    Stage result = fed(stage, left, part(until.right(), false));
    if (a > 0) {
      result = both(result, window(Quantifier.ALWAYS, new Bounds(0, a - 1), left, first, false));
    }
    return result;
  }

  private Stage since(Since since, boolean first) {
    Stage left = part(since.left(), first);
    Stage right = part(since.right(), first);
    Bounds bounds = since.bounds();
    long a = bounds.fromMicros();
    Stage result = fed(new SinceStage(beginMicros), left, right);
    if (a > 0) {
      result = window(Quantifier.ONCE, new Bounds(a, a), result, first);
      Bounds after = new Bounds(0, a - 1);
      result = both(result, window(Quantifier.HISTORICALLY, after, left, first));
    }
    if (bounds.bounded()) {
      result = both(result, window(Quantifier.ONCE, bounds, right, first));
    }
    return result;
  }

  /** It holds, and a moment ago it did not; at the first moment there is no moment ago. */
  private Stage edge(Edge edge, boolean first) {
    Stage operand = part(edge.operand(), first);
    Stage opposite = fed(new NotStage(beginMicros), operand);
    Stage now = edge.rise() ? operand : opposite;
    Stage ago = edge.rise() ? opposite : operand;
    return both(now, window(Quantifier.ONCE, new Bounds(1, 1), ago, first));
  }

  private Stage both(Stage left, Stage right) {
    return fed(new JoinStage(beginMicros, Connective.AND), left, right);
  }

  private <S extends Stage> S fed(S stage, Stage... operands) {
    add(stage);
    for (int port = 0; port < operands.length; port++) {
      operands[port].feed(stage, port);
    }
    if (stage instanceof PairStage pair) {
      pair.operands(operands[0], operands[1]);
    }
    return stage;
  }

  private <S extends Stage> S add(S stage) {
    stages.add(stage);
    return stage;
  }
}
