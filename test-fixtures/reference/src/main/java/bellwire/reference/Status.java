package bellwire.reference;

/** How a reference value was obtained, and so what it may be used for. */
public enum Status {
  /** Read on the page or in the file that the source names. */
  READ("V"),
  /** Read there, and recomputed independently with agreement. */
  READ_AND_COMPUTED("V+C"),
  /**
   * Computed from the formula that the source names, no published number read. Decides whether
   * arithmetic is right, not whether a formula is.
   */
  COMPUTED("C"),
  /** Quoted at second hand; the primary text was not read. */
  INDIRECT("I"),
  /** From memory, not verified. */
  REMEMBERED("M"),
  /** Remembered, and reproduced by computation. */
  REMEMBERED_AND_COMPUTED("M+C"),
  /** Common practice without any source. */
  COMMON_PRACTICE("CP");

  private final String mark;

  Status(String mark) {
    this.mark = mark;
  }

  /** The mark that the data files carry. */
  public String mark() {
    return mark;
  }

  /**
   * Whether a test named after the source may pass or fail by this value. Otherwise it is only a
   * default, to be labelled as one.
   */
  public boolean decides() {
    return this != INDIRECT && this != REMEMBERED && this != COMMON_PRACTICE;
  }

  static Status ofMark(String mark) {
    for (Status status : values()) {
      if (status.mark.equals(mark)) {
        return status;
      }
    }
    throw new IllegalArgumentException("status=" + mark);
  }
}
