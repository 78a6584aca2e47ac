package bellwire.app.visit;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.app.rehearsal.CallSource;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.survey.BoardSaid;
import bellwire.app.survey.InstrumentTrouble;
import java.util.OptionalDouble;
import java.util.function.Consumer;

/** A source whose changes somebody else is told of too. */
final class ToldCalls implements CallSource {
  private final CallSource source;
  private final Consumer<LevelChange> seen;

  ToldCalls(CallSource source, Consumer<LevelChange> seen) {
    this.source = source;
    this.seen = seen;
  }

  @Override
  public void start(Rehearsal.Feed feed, int leads, Consumer<LevelChange> sink)
      throws InstrumentTrouble {
    source.start(feed, leads, sink.andThen(seen));
  }

  @Override
  public void await(long micros) throws InstrumentTrouble {
    source.await(micros);
  }

  @Override
  public long nowMicros() {
    return source.nowMicros();
  }

  @Override
  public long notBeyondMicros() {
    return source.notBeyondMicros();
  }

  @Override
  public long settledMicros() {
    return source.settledMicros();
  }

  @Override
  public long lastMoment(long judgedMicros) {
    return source.lastMoment(judgedMicros);
  }

  @Override
  public Level level(int lead) {
    return source.level(lead);
  }

  @Override
  public boolean over() {
    return source.over();
  }

  @Override
  public OptionalDouble mainsHertz() {
    return source.mainsHertz();
  }

  @Override
  public BoardSaid board() {
    return source.board();
  }

  @Override
  public Sampling sampling() {
    return source.sampling();
  }

  @Override
  public void close() {
    source.close();
  }
}
