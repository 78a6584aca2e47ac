package bellwire.app.rehearsal;

import bellwire.analysis.calls.BounceFilter;
import bellwire.analysis.calls.Level;
import bellwire.analysis.rules.Rule;
import bellwire.analysis.rules.RuleMonitor;
import bellwire.analysis.rules.Ruling;
import bellwire.analysis.rules.Truth;
import bellwire.app.rehearsal.Attempt.Fate;
import bellwire.app.survey.InstrumentTrouble;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The order of a rehearsal: step by step with the operator, while the terminals are watched; the
 * rules are judged when it is over, from what was seen in attempts that count.
 */
public final class RehearsalRun {
  /** Contacts bounce for less. Common practice, no source. */
  static final long BOUNCE_MICROS = 20_000;

  private static final long LOOK_MICROS = 50_000;

  /** From the begin of watching to the first level of every lead. */
  private static final long FIRST_LEVELS_MICROS = 3_000_000;

  /** After the last step, so that every change has been told. */
  private static final long RUN_OUT_MICROS = 500_000;

  private final Rehearsal rehearsal;
  private final List<Rule> rules;
  private final CallSource source;
  private final Operator operator;
  private final CallRecord record;
  private final double clockPpm;
  private final History history;
  private final BounceFilter bounce;
  private final List<Attempt> attempts = new ArrayList<>();
  private OptionalDouble mainsHertz = OptionalDouble.empty();
  private boolean power = true;
  private long overMicros;

  /** The step that is next, or under way. */
  private int position;

  private boolean underWay;
  private long begunMicros;

  /**
   * @param options the names of the file's options that hold here
   * @param record takes down steps; samples are the source's to tell
   * @param clockPpm bound of the device clock's error
   */
  public RehearsalRun(
      Rehearsal rehearsal,
      Set<String> options,
      CallSource source,
      Operator operator,
      CallRecord record,
      double clockPpm) {
    this.rehearsal = rehearsal;
    this.source = source;
    this.operator = operator;
    this.record = record;
    this.clockPpm = clockPpm;
    Set<String> dropped = new LinkedHashSet<>();
    for (Rehearsal.Choice option : rehearsal.options()) {
      if (options.contains(option.name())) {
        dropped.addAll(option.drops());
      }
    }
    rules = ExpectationRules.without(ExpectationRules.all(rehearsal), dropped);
    history = new History();
    bounce = new BounceFilter(BOUNCE_MICROS, history::add);
  }

  /** Takes the control through all steps. */
  public RehearsalOutcome run() throws InstrumentTrouble {
    int leads = rehearsal.terminals().size();
    source.start(rehearsal.feed(), leads, bounce::accept);
    long start = source.nowMicros();
    while (levels().contains(Level.UNKNOWN)
        && !source.over()
        && source.nowMicros() - start < FIRST_LEVELS_MICROS) {
      source.await(LOOK_MICROS);
    }
    refuseUnsuited();
    long known = source.nowMicros();
    String trouble = "";
    String ended;
    try {
      ended = steps();
    } catch (InstrumentTrouble e) {
      // What was seen so far is not thrown away.
      trouble = String.valueOf(e.getMessage());
      ended = trouble;
      breakOff();
    }
    long last = source.lastMoment(overMicros);
    record.finished(last);
    List<Level> atEnd = levels();
    while (trouble.isEmpty()
        && source.settledMicros() < last + BOUNCE_MICROS
        && source.nowMicros() < last + RUN_OUT_MICROS
        && !source.over()) {
      source.await(LOOK_MICROS);
    }
    bounce.settle(source.settledMicros());
    bounce.finish();
    List<Ruling> rulings = judged(known, Math.max(known, Math.min(last, sureUntil())));
    return new RehearsalOutcome(
        rehearsal,
        List.copyOf(attempts),
        rulings,
        Findings.of(rehearsal, rulings),
        atEnd,
        history.changes(),
        history.dropped(),
        start,
        last,
        mainsHertz,
        source.board(),
        source.sampling(),
        bounce.bounces(),
        ended,
        trouble);
  }

  /** Until then every change has been told, and was kept. */
  private long sureUntil() {
    return Math.min(source.settledMicros(), history.wholeUntilMicros());
  }

  /** A lead that shows neither a supply, nor a contact, nor nothing, is no call's. */
  private void refuseUnsuited() throws InstrumentTrouble {
    List<String> odd = new ArrayList<>();
    for (int lead = 0; lead < rehearsal.terminals().size(); lead++) {
      if (source.level(lead) == Level.UNKNOWN) {
        odd.add("X" + (lead + 1) + " (" + rehearsal.terminals().get(lead).name() + ")");
      }
    }
    if (!odd.isEmpty() && !source.over()) {
      throw new InstrumentTrouble(
          String.join(", ", odd)
              + " shows neither steady 24 V, nor a still contact. A control whose terminals talk"
              + " all the time is on a serial bus, and not for this board: look for terminals"
              + " marked as a bus, or with numbers");
    }
  }

  private String steps() throws InstrumentTrouble {
    List<Step> steps = rehearsal.steps();
    while (position < steps.size()) {
      Step step = steps.get(position);
      long asked = source.nowMicros();
      Operator.Answer answer = operator.begin(step, position + 1, steps.size(), this::idle);
      Operator.Between between = answer.between();
      long earliest = between == null ? asked : between.earliestMicros();
      long latest =
          Math.max(earliest, between == null ? source.notBeyondMicros() : between.latestMicros());
      if (answer.choice() == Operator.Choice.END) {
        record.ended(step, earliest, latest, answer.reason());
        overMicros = earliest;
        notComeTo(position, latest, answer.reason());
        return answer.reason();
      } else if (answer.choice() == Operator.Choice.SKIP) {
        record.skipped(step, earliest, latest, answer.reason());
        Boolean skippedPower = step.deed().power();
        history.skipped(step, skippedPower == null ? power : skippedPower, earliest);
        attempts.add(
            new Attempt(step, Fate.SKIPPED, earliest, latest, latest, false, answer.reason(), ""));
        position++;
        continue;
      }
      power = step.deed().power() == null ? power : step.deed().power();
      record.begun(step, earliest, latest, answer.reason());
      begunMicros = latest;
      underWay = true;
      history.step(step, power, earliest, latest);
      Watched watched = watch(step, earliest, latest);
      underWay = false;
      switch (watched.next()) {
        case REPEAT -> {
          attempts.add(watched.setAside(step));
          power = step.deed().power() == null ? power : !step.deed().power();
          history.setAside();
          position = Math.max(0, position - 1);
        }
        case END -> {
          attempts.add(watched.attempt(step, Fate.DONE, answer.reason()));
          String why = source.over() ? "the record ends here" : "the operator ended the rehearsal";
          notComeTo(position + 1, source.nowMicros(), why);
          return why;
        }
        default -> {
          attempts.add(watched.attempt(step, Fate.DONE, answer.reason()));
          position++;
        }
      }
    }
    return "";
  }

  /**
   * The board or the link failed: the step under way was not gone through, the rest not come to.
   */
  private void breakOff() {
    overMicros = source.nowMicros();
    if (underWay) {
      Step step = rehearsal.steps().get(position++);
      attempts.add(
          new Attempt(
              step, Fate.DONE, begunMicros, begunMicros, overMicros, false, "broken off", ""));
    }
    notComeTo(position, overMicros, "the rehearsal broke off");
  }

  /** How a step went. */
  private record Watched(
      long earliest, long latest, long end, boolean reached, Operator.Next next, String observed) {
    Attempt attempt(Step step, Fate fate, String reason) {
      return new Attempt(step, fate, earliest, latest, end, reached, reason, observed);
    }

    Attempt setAside(Step step) {
      String why = observed.isEmpty() ? "repeated" : observed;
      return new Attempt(step, Fate.SET_ASIDE, earliest, latest, end, reached, why, "");
    }
  }

  private Watched watch(Step step, long earliest, long latest) throws InstrumentTrouble {
    @Nullable Long since =
        Facts.holds(step.until(), rehearsal, levels()) ? (Long) source.nowMicros() : null;
    boolean reached = false;
    while (true) {
      source.await(LOOK_MICROS);
      bounce.settle(source.settledMicros());
      long now = source.nowMicros();
      List<Level> levels = levels();
      boolean goal = Facts.holds(step.until(), rehearsal, levels);
      since = goal ? since == null ? (Long) now : since : null;
      long held = since == null ? 0 : now - since;
      reached |= goal && held >= step.stayMicros();
      long waited = now - latest - step.atMostMicros();
      boolean late = waited >= step.stayMicros() || !goal && waited >= 0;
      long left = goal ? step.stayMicros() - held : step.atMostMicros() - (now - latest);
      Operator.Next next =
          operator.look(
              new Operator.Moment(step, levels, goal, reached, late, Math.max(0, left), now));
      if (next != Operator.Next.WAIT || source.over()) {
        record.over(step, next);
        overMicros = source.notBeyondMicros();
        String observed = operator.observe(step, this::idle);
        if (!observed.isEmpty()) {
          record.observed(step, observed);
        }
        return new Watched(earliest, latest, now, reached, next, observed);
      }
    }
  }

  private List<Level> idle() throws InstrumentTrouble {
    source.await(2 * LOOK_MICROS);
    bounce.settle(source.settledMicros());
    return levels();
  }

  private void notComeTo(int from, long micros, String reason) {
    for (Step step : rehearsal.steps().subList(from, rehearsal.steps().size())) {
      attempts.add(new Attempt(step, Fate.NOT_COME_TO, micros, micros, micros, false, reason, ""));
    }
  }

  private List<Level> levels() {
    // Found only while something is on.
    mainsHertz = source.mainsHertz().isPresent() ? source.mainsHertz() : mainsHertz;
    List<Level> levels = new ArrayList<>();
    for (int lead = 0; lead < rehearsal.terminals().size(); lead++) {
      levels.add(source.level(lead));
    }
    return levels;
  }

  /** A stranger's record, or a device of his, may say what no control and no gap comes to. */
  private List<Ruling> judged(long startMicros, long endMicros) throws InstrumentTrouble {
    try {
      return judge(startMicros, endMicros);
    } catch (IllegalArgumentException e) {
      throw new InstrumentTrouble(
          "what was seen cannot be put in order, so that nothing can be said of the control ("
              + e.getMessage()
              + "); rehearse again");
    }
  }

  private List<Ruling> judge(long startMicros, long endMicros) {
    Facts facts = new Facts(rehearsal);
    RuleMonitor monitor = facts.monitor(rules, clockPpm);
    for (History.Event event : history.inOrder(startMicros, endMicros)) {
      monitor.advance(event.earliestMicros());
      Map<Integer, Truth> changes = event.changes(facts);
      if (!changes.isEmpty()) {
        monitor.change(changes, event.earliestMicros(), event.latestMicros());
      }
    }
    return monitor.finish(endMicros + 1);
  }
}
