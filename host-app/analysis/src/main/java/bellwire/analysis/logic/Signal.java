package bellwire.analysis.logic;

import java.util.Arrays;

/**
 * A piecewise constant signal over whole microseconds, right-continuous: each value holds from its
 * change to before the next. A value is an interval; a Boolean true is plus infinity, false minus
 * infinity, and an unknown one the interval between them. Neighbours of equal value are one piece.
 */
public final class Signal {

  private final long endMicros;
  private final long[] fromMicros;
  private final Robustness[] values;

  private Signal(long endMicros, long[] fromMicros, Robustness[] values) {
    this.endMicros = endMicros;
    this.fromMicros = fromMicros;
    this.values = values;
  }

  public static Builder builder(long beginMicros) {
    return new Builder(beginMicros);
  }

  public long beginMicros() {
    return fromMicros[0];
  }

  /** First moment without a value. */
  public long endMicros() {
    return endMicros;
  }

  public int pieces() {
    return values.length;
  }

  public long fromMicros(int piece) {
    return fromMicros[piece];
  }

  public Robustness value(int piece) {
    return values[piece];
  }

  public Robustness at(long micros) {
    if (micros < beginMicros() || micros >= endMicros) {
      throw new IllegalArgumentException(
          "micros=" + micros + " beginMicros=" + beginMicros() + " endMicros=" + endMicros);
    }
    int place = Arrays.binarySearch(fromMicros, micros);
    return values[place >= 0 ? place : -place - 2];
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Signal signal
        && endMicros == signal.endMicros
        && Arrays.equals(fromMicros, signal.fromMicros)
        && Arrays.equals(values, signal.values);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(fromMicros) * 31 + Arrays.hashCode(values);
  }

  /** As {@code 0:[1.0,1.0] 5:[-2.0,3.0] end 9}. */
  @Override
  public String toString() {
    StringBuilder out = new StringBuilder();
    for (int i = 0; i < values.length; i++) {
      out.append(fromMicros[i]).append(":[").append(values[i].low()).append(',');
      out.append(values[i].high()).append("] ");
    }
    return out.append("end ").append(endMicros).toString();
  }

  /** Collects pieces in order of time. Holds as many as it is given. */
  public static final class Builder {

    private long endMicros;
    private int pieces;
    private long[] from = new long[8];
    private Robustness[] values = new Robustness[8];

    private Builder(long beginMicros) {
      this.endMicros = beginMicros;
    }

    /** The value from the last piece's end to before {@code toMicros}, which must be later. */
    public Builder until(long toMicros, Robustness value) {
      if (toMicros <= endMicros) {
        throw new IllegalArgumentException("toMicros=" + toMicros + " endMicros=" + endMicros);
      }
      if (pieces == 0 || !values[pieces - 1].equals(value)) {
        if (pieces == from.length) {
          from = Arrays.copyOf(from, 2 * pieces);
          values = Arrays.copyOf(values, 2 * pieces);
        }
        from[pieces] = endMicros;
        values[pieces++] = value;
      }
      endMicros = toMicros;
      return this;
    }

    public Builder until(long toMicros, boolean value) {
      return until(toMicros, value ? Robustness.TRUE : Robustness.FALSE);
    }

    public Builder until(long toMicros, double value) {
      return until(toMicros, Robustness.exactly(value));
    }

    public Signal build() {
      if (pieces == 0) {
        throw new IllegalStateException("pieces=0");
      }
      return new Signal(endMicros, Arrays.copyOf(from, pieces), Arrays.copyOf(values, pieces));
    }
  }
}
