package bellwire.simbench.control;

import bellwire.simbench.control.Operation.Mode;

/** From the switches and the temperatures to what is asked for, with the usual hysteresis. */
final class Demand {
  /** Where a call is asked for and where it is satisfied, kelvins; common practice, no source. */
  private static final double ASK_KELVIN = 0.5;

  private static final double SATISFIED_KELVIN = 0;

  /** The same of the second stage. */
  private static final double ASK_SECOND_KELVIN = 3;

  private static final double SATISFIED_SECOND_KELVIN = 2.5;
  private static final double NANOS_PER_HOUR = 3.6e12;

  /** Two looks at a drifting room are never nearer. */
  private static final long LEAST_LOOK_NANOS = 1_000_000;

  private final double driftKelvinPerHour;
  private Mode mode = Mode.OFF;
  private double setKelvin;
  private long setNanos;
  private boolean asked;
  private boolean second;
  private long secondNanos;

  Demand(double driftKelvinPerHour) {
    this.driftKelvinPerHour = driftKelvinPerHour;
  }

  Demand(Demand other) {
    driftKelvinPerHour = other.driftKelvinPerHour;
    mode = other.mode;
    setKelvin = other.setKelvin;
    setNanos = other.setNanos;
    asked = other.asked;
    second = other.second;
    secondNanos = other.secondNanos;
  }

  void mode(Mode to) {
    if (to != mode) {
      mode = to;
      forget();
    }
  }

  void set(double kelvin, long nanos) {
    setKelvin = kelvin;
    setNanos = nanos;
  }

  /** As after a loss of power. */
  void forget() {
    asked = false;
    second = false;
  }

  /** Looks at switches and temperatures. */
  void look(Alarm alarm) {
    if (mode == Mode.OFF) {
      forget();
      return;
    }
    double away = away(alarm.now());
    asked = asked ? away > SATISFIED_KELVIN : away >= ASK_KELVIN;
    boolean before = second;
    second = asked && (second ? away > SATISFIED_SECOND_KELVIN : away >= ASK_SECOND_KELVIN);
    if (second && !before) {
      secondNanos = alarm.now();
    }
    for (double threshold :
        new double[] {ASK_KELVIN, SATISFIED_KELVIN, ASK_SECOND_KELVIN, SATISFIED_SECOND_KELVIN}) {
      wakeAt(threshold, away, alarm);
    }
  }

  /** How far the room is on the side that the mode works against. */
  private double away(long nanos) {
    double difference = setKelvin - driftKelvinPerHour * ((nanos - setNanos) / NANOS_PER_HOUR);
    return mode == Mode.COOL ? -difference : difference;
  }

  private void wakeAt(double threshold, double away, Alarm alarm) {
    double perHour = mode == Mode.COOL ? driftKelvinPerHour : -driftKelvinPerHour;
    double hours = (threshold - away) / perHour;
    if (hours >= 0 && hours < 1e4) {
      long ahead = Math.max(LEAST_LOOK_NANOS, (long) Math.ceil(hours * NANOS_PER_HOUR));
      alarm.reached(alarm.now() + ahead);
    }
  }

  Mode mode() {
    return mode;
  }

  boolean heat() {
    return asked && mode != Mode.COOL;
  }

  boolean cool() {
    return asked && mode == Mode.COOL;
  }

  /** Whether the second stage is asked for too. */
  boolean second() {
    return second;
  }

  /** Since when it is. */
  long secondNanos() {
    return secondNanos;
  }
}
