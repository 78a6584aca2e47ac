package bellwire.app.export;

/** What a job can be written as. */
public enum JobFormat {
  /** The tables that a spreadsheet opens. */
  CSV,
  /** Everything in one object, and the photographs beside it. */
  JSON,
  /** The report, on paper. */
  PDF,
  /** The report, for a phone. */
  HTML,
  /** Labels for the conductors' ends, and the card for the panel. */
  LABELS
}
