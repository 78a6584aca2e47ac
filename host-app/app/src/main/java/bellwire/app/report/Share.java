package bellwire.app.report;

/** A share of one as people read it. */
public final class Share {
  private Share() {}

  /** '12 %', '>99 %', '<1 %'. */
  public static String words(double share) {
    return share > 0.995 ? ">99 %" : share < 0.01 ? "<1 %" : Math.round(share * 100) + " %";
  }
}
