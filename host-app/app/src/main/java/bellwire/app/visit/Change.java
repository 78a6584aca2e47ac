package bellwire.app.visit;

/** What of a job has changed. */
public enum Change {
  FACTS,
  ACTS,
  CABLES,
  SURVEYS,
  LANDINGS,
  REHEARSALS,
  VIGILS,
  TICKS,
  PHOTOS
}
