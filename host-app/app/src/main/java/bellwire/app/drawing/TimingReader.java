package bellwire.app.drawing;

import bellwire.app.drawing.TimingModel.Lane;
import bellwire.app.drawing.TimingModel.StepMark;
import bellwire.app.rehearsal.Attempt;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.Terminal;
import java.util.ArrayList;
import java.util.List;

/** From a rehearsal's outcome to its timing diagram. */
final class TimingReader {
  private TimingReader() {}

  static TimingModel of(RehearsalOutcome outcome) {
    List<Terminal> terminals = outcome.rehearsal().terminals();
    List<Lane> lanes = new ArrayList<>();
    for (int lead = 0; lead < terminals.size(); lead++) {
      lanes.add(TimingModel.lane(terminals.get(lead), lead, outcome.changes()));
    }
    return new TimingModel(
        outcome.startMicros(),
        Math.max(outcome.endMicros(), outcome.startMicros() + 1),
        outcome.startMicros(),
        lanes,
        outcome.attempts().stream()
            .filter(a -> a.fate() == Attempt.Fate.DONE || a.fate() == Attempt.Fate.SET_ASIDE)
            .map(
                a ->
                    new StepMark(
                        a.step().name(),
                        a.latestMicros(),
                        a.endMicros(),
                        a.fate() == Attempt.Fate.DONE))
            .toList(),
        List.of());
  }
}
