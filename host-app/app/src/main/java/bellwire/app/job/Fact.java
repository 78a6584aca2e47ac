package bellwire.app.job;

/** What is told of a visit once, in words. */
public enum Fact {
  CUSTOMER,
  PLACE,
  TECHNICIAN,
  SYSTEM,
  OLD_CONTROL,
  NEW_CONTROL,
  REASON,
  NOTES,
  /** 'metres' or 'feet'; metres where not told. */
  UNITS,
  /** '50' or '60'. */
  MAINS_HERTZ,
  /** The technician's own words for the report's first page. */
  SUMMARY
}
