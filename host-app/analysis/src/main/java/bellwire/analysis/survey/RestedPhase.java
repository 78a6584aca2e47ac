package bellwire.analysis.survey;

import java.util.List;

/** A phase on a cable with coils or capacitors on it: the same looks, with rests between them. */
public final class RestedPhase implements Phase {
  private final Phase inner;
  private final Rests rests;

  public RestedPhase(Phase inner, Rests rests) {
    this.inner = inner;
    this.rests = rests;
  }

  @Override
  public List<Probe> next() {
    return rests.between(inner.next());
  }

  @Override
  public void accept(List<Reading> readings) {
    inner.accept(rests.without(readings));
  }
}
