package bellwire.app.rehearsal;

import bellwire.app.survey.BoardSaid;
import bellwire.link.Message;

/** Two records of one rehearsal. */
public record TwoRecords(CallRecord one, CallRecord other) implements CallRecord {
  @Override
  public void board(BoardSaid said) {
    one.board(said);
    other.board(said);
  }

  @Override
  public void samples(Message.CallSamples samples) {
    one.samples(samples);
    other.samples(samples);
  }

  @Override
  public void begun(Step step, long earliestMicros, long latestMicros, String note) {
    one.begun(step, earliestMicros, latestMicros, note);
    other.begun(step, earliestMicros, latestMicros, note);
  }

  @Override
  public void skipped(Step step, long earliestMicros, long latestMicros, String reason) {
    one.skipped(step, earliestMicros, latestMicros, reason);
    other.skipped(step, earliestMicros, latestMicros, reason);
  }

  @Override
  public void ended(Step step, long earliestMicros, long latestMicros, String reason) {
    one.ended(step, earliestMicros, latestMicros, reason);
    other.ended(step, earliestMicros, latestMicros, reason);
  }

  @Override
  public void over(Step step, Operator.Next next) {
    one.over(step, next);
    other.over(step, next);
  }

  @Override
  public void observed(Step step, String words) {
    one.observed(step, words);
    other.observed(step, words);
  }

  @Override
  public void finished(long micros) {
    one.finished(micros);
    other.finished(micros);
  }
}
