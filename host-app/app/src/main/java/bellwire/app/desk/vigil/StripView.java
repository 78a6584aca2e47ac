package bellwire.app.desk.vigil;

/**
 * What part of a vigil is shown. Immutable; each change is a new one.
 *
 * @param kind what moves it
 * @param fromMicros of a part that stays
 * @param toMicros its end
 */
record StripView(Kind kind, long fromMicros, long toMicros) {
  static final long LEAST_MICROS = 20_000;
  static final long MOST_MICROS = 32L * 24 * 3600 * 1_000_000;

  static final StripView ALL = new StripView(Kind.ALL, 0, 1);

  /** How a view goes on while more is watched. */
  enum Kind {
    /** All of the vigil, however long it gets. */
    ALL,
    /** The latest, so long as the view is. */
    LATEST,
    /** The same part. */
    PART
  }

  long lengthMicros() {
    return toMicros - fromMicros;
  }

  static StripView latest(long lengthMicros) {
    return new StripView(Kind.LATEST, 0, lengthMicros);
  }

  /** A part of that length about a middle. */
  static StripView about(long middleMicros, long lengthMicros) {
    long length = Math.max(LEAST_MICROS, Math.min(MOST_MICROS, lengthMicros));
    return new StripView(Kind.PART, middleMicros - length / 2, middleMicros - length / 2 + length);
  }

  /**
   * As it is shown of a vigil that has readings in a time.
   *
   * @param lastMicros less than first for one without readings
   */
  StripView over(long firstMicros, long lastMicros) {
    long last = Math.max(lastMicros, firstMicros + LEAST_MICROS);
    return switch (kind) {
      case ALL -> new StripView(kind, firstMicros, last);
      case LATEST -> new StripView(kind, last - lengthMicros(), last);
      case PART -> this;
    };
  }

  /** Moved by a share of its length. */
  StripView moved(double share) {
    long by = Math.round(lengthMicros() * share);
    return new StripView(Kind.PART, fromMicros + by, toMicros + by);
  }

  /** Shorter or longer, a time staying where it is. */
  StripView zoomed(double factor, long fixedMicros) {
    double share = (double) (fixedMicros - fromMicros) / lengthMicros();
    double wanted = Math.max(LEAST_MICROS, Math.min(MOST_MICROS, lengthMicros() * factor));
    long length = Math.round(wanted);
    long from = fixedMicros - Math.round(length * share);
    return new StripView(Kind.PART, from, from + length);
  }

  /** Not beside what there is: a fifth of the view at least shows some of it. */
  StripView within(long firstMicros, long lastMicros) {
    if (kind != Kind.PART) {
      return this;
    }
    long room = lengthMicros() * 4 / 5;
    long from =
        Math.max(firstMicros - room, Math.min(fromMicros, lastMicros - lengthMicros() + room));
    return new StripView(kind, from, from + lengthMicros());
  }
}
