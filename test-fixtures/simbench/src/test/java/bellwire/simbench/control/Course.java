package bellwire.simbench.control;

import bellwire.simbench.control.Operation.Fan;
import bellwire.simbench.control.Operation.Mode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What a control did under a list of operations: every edge, found by its own looking ahead. */
record Course(ControlSetup setup, List<Step> steps, List<Edge> edges, long endNanos) {

  /** An operation at a time. */
  record Step(double seconds, Operation operation) {
    long nanos() {
      return Math.round(seconds * 1e9);
    }
  }

  record Edge(String terminal, boolean closes, long nanos) {
    double seconds() {
      return nanos * 1e-9;
    }
  }

  /** A contact's state for a while, bounce left out. */
  record Stretch(boolean closed, long fromNanos, long untilNanos) {
    double seconds() {
      return (untilNanos - fromNanos) * 1e-9;
    }
  }

  /** Shorter than this a state is a bounce. */
  static final long BOUNCE_NANOS = 4_000_000;

  static Course run(ControlSetup setup, long seed, List<Step> steps, double endSeconds) {
    SimulatedControl control = new SimulatedControl(setup, setup.kind().terminals(), seed);
    List<Edge> edges = new ArrayList<>();
    boolean[] closed = new boolean[control.terminals().size()];
    long now = 0;
    List<Step> all = new ArrayList<>(steps);
    all.add(new Step(endSeconds, new Operation(null, null, null, null)));
    for (Step step : all) {
      for (long next = control.nextChange(now);
          next <= step.nanos();
          next = control.nextChange(now)) {
        now = next;
        int before = edges.size();
        look(control, closed, now, edges);
        if (edges.size() == before) {
          throw new AssertionError("nothing changed at nanos=" + now);
        }
      }
      now = step.nanos();
      control.operate(step.operation(), now);
      int before = edges.size();
      look(control, closed, now, edges);
      if (edges.size() != before) {
        throw new AssertionError("changed unannounced: edges=" + edges);
      }
    }
    return new Course(setup, steps, edges, now);
  }

  private static void look(SimulatedControl control, boolean[] closed, long now, List<Edge> into) {
    for (int i = 0; i < closed.length; i++) {
      String terminal = control.terminals().get(i);
      boolean is = control.closed(terminal, now);
      if (is != closed[i]) {
        closed[i] = is;
        into.add(new Edge(terminal, is, now));
      }
    }
  }

  /** Every function of a kind, with the waits that they take. */
  static List<Step> everything(Kind kind) {
    List<Step> steps = new ArrayList<>();
    double t = 10;
    steps.add(new Step(t, Operation.mode(Mode.HEAT, 1)));
    if (kind.secondHeat()) {
      steps.add(new Step(t += 200, Operation.set(4)));
      t += 500;
    }
    steps.add(new Step(t += 200, Operation.set(-1)));
    steps.add(new Step(t += 420, Operation.mode(Mode.COOL, -1)));
    steps.add(new Step(t += 200, Operation.set(1)));
    steps.add(new Step(t += 10, Operation.set(-1)));
    steps.add(new Step(t += 400, Operation.power(false)));
    steps.add(new Step(t += 10, Operation.power(true)));
    steps.add(new Step(t += 420, Operation.set(1)));
    steps.add(new Step(t += 420, Operation.fan(Fan.ON)));
    steps.add(new Step(t += 20, Operation.fan(Fan.AUTO)));
    if (kind.emergency()) {
      steps.add(new Step(t += 320, Operation.mode(Mode.EMERGENCY, 1)));
    }
    steps.add(new Step(t += 60, Operation.mode(Mode.OFF)));
    return steps;
  }

  /** When everything's last operation has long been followed. */
  static double endSeconds(Kind kind) {
    List<Step> steps = everything(kind);
    return steps.get(steps.size() - 1).seconds() + 400;
  }

  static Course ofEverything(ControlSetup setup, long seed) {
    return run(setup, seed, everything(setup.kind()), endSeconds(setup.kind()));
  }

  /** A terminal's states in order, bounce left out. */
  List<Stretch> stretches(String terminal) {
    List<Stretch> stretches = new ArrayList<>();
    boolean state = false;
    long from = 0;
    List<Edge> own = edges.stream().filter(e -> e.terminal().equals(terminal)).toList();
    for (int i = 0; i < own.size(); i++) {
      // The last edge of a burst decides, and its first one tells when.
      long burst = own.get(i).nanos();
      while (i + 1 < own.size() && own.get(i + 1).nanos() - own.get(i).nanos() < BOUNCE_NANOS) {
        i++;
      }
      if (own.get(i).closes() != state) {
        stretches.add(new Stretch(state, from, burst));
        state = !state;
        from = burst;
      }
    }
    stretches.add(new Stretch(state, from, endNanos));
    return stretches;
  }

  List<Stretch> calls(String terminal) {
    return stretches(terminal).stream().filter(Stretch::closed).toList();
  }

  boolean closed(String terminal, long nanos) {
    return calls(terminal).stream()
        .anyMatch(call -> call.fromNanos() <= nanos && nanos < call.untilNanos());
  }

  /** In one line, like {@code W1+11.0 W1-60.3}, bounce left out. */
  String inWords() {
    List<Edge> clean = new ArrayList<>();
    for (String terminal : setup.kind().terminals()) {
      for (Stretch call : calls(terminal)) {
        clean.add(new Edge(terminal, true, call.fromNanos()));
        if (call.untilNanos() < endNanos) {
          clean.add(new Edge(terminal, false, call.untilNanos()));
        }
      }
    }
    clean.sort(java.util.Comparator.comparingLong(Edge::nanos));
    StringBuilder words = new StringBuilder();
    for (Edge edge : clean) {
      words.append(
          String.format(
              Locale.ROOT,
              "%s%s%s%.1f",
              words.isEmpty() ? "" : " ",
              edge.terminal(),
              edge.closes() ? "+" : "-",
              edge.seconds()));
    }
    return words.toString();
  }
}
