package bellwire.app.drawing;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.app.drawing.TimingModel.Bracket;
import bellwire.app.drawing.TimingModel.Lane;
import bellwire.app.drawing.TimingModel.StepMark;
import bellwire.app.drawing.TimingModel.Stretch;
import bellwire.app.rehearsal.Terminal;
import java.util.ArrayList;
import java.util.List;

/**
 * A timing diagram that grows while a rehearsal runs. Bounded: a lane with too many changes forgets
 * its oldest ones and begins unknown. Not safe for several threads.
 */
public final class TimingTape {
  private static final int MOST_STRETCHES = 20_000;
  private static final int MOST_STEPS = 1000;

  private final List<Terminal> terminals;
  private final List<List<Stretch>> lanes = new ArrayList<>();
  private final List<StepMark> steps = new ArrayList<>();
  private List<Bracket> brackets = List.of();
  private boolean begun;
  private long zeroMicros;
  private long nowMicros;

  /**
   * @param terminals in the order of the leads
   */
  public TimingTape(List<Terminal> terminals) {
    this.terminals = List.copyOf(terminals);
    this.terminals.forEach(t -> lanes.add(new ArrayList<>()));
  }

  /** Takes a change; one of a lead that has no terminal is passed over. */
  public void add(LevelChange change) {
    advance(change.latestMicros());
    if (change.lead() < lanes.size()) {
      List<Stretch> lane = lanes.get(change.lead());
      if (lane.size() >= MOST_STRETCHES) {
        lane.subList(0, MOST_STRETCHES / 2).clear();
        lane.set(0, new Stretch(Level.UNKNOWN, lane.get(0).fromMicros()));
      }
      lane.add(new Stretch(change.level(), change.latestMicros()));
    }
  }

  /** A step begins; the one before is over. */
  public void step(String name, long micros) {
    advance(micros);
    endStep(micros);
    if (steps.size() < MOST_STEPS) {
      steps.add(new StepMark(name, micros, Long.MAX_VALUE, true));
    }
  }

  private void endStep(long micros) {
    int last = steps.size() - 1;
    if (last >= 0 && steps.get(last).toMicros() == Long.MAX_VALUE) {
      StepMark open = steps.get(last);
      steps.set(last, new StepMark(open.name(), open.fromMicros(), micros, open.counts()));
    }
  }

  /** The bounds to show from now on, such as the one that is waited for. */
  public void brackets(List<Bracket> shown) {
    brackets = List.copyOf(shown);
  }

  /** Time has passed; the diagram reaches to here. */
  public void advance(long micros) {
    if (!begun) {
      begun = true;
      zeroMicros = micros;
      nowMicros = micros;
    }
    nowMicros = Math.max(nowMicros, micros);
  }

  /** The whole so far. */
  public TimingModel whole() {
    return window(Long.MAX_VALUE);
  }

  /**
   * @param lastMicros how much of it, up to now
   */
  public TimingModel window(long lastMicros) {
    long from = nowMicros - zeroMicros > lastMicros ? nowMicros - lastMicros : zeroMicros;
    List<Lane> shown = new ArrayList<>();
    for (int lead = 0; lead < lanes.size(); lead++) {
      Terminal t = terminals.get(lead);
      shown.add(new Lane(t.name(), t.role().words(), lanes.get(lead)));
    }
    return new TimingModel(
        from, Math.max(nowMicros, from + 1_000_000), zeroMicros, shown, steps, brackets);
  }
}
