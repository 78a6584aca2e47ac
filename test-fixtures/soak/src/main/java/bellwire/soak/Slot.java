package bellwire.soak;

/**
 * A stretch of the visit: what the person does in it, within its own mishaps, and a calm end by
 * which all has to have come right.
 *
 * @param calmMicros from here on nothing goes wrong
 */
record Slot(Task task, long micros, long calmMicros, long untilMicros) {

  enum Task {
    SURVEY,
    CONTINUITY,
    TOUCH,
    CALLS,
    TREND,
    REHEARSAL
  }
}
