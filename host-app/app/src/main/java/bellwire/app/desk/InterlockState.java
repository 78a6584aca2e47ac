package bellwire.app.desk;

/**
 * What the board last said of foreign voltage, always in view. A clear interlock never means
 * 'proved dead', and the words say so.
 *
 * @param kind decides the shape
 * @param headline read at three metres, such as 'VOLTAGE AT P3'
 * @param detail the rest, such as '24 V, driven: all relays open'
 */
public record InterlockState(Kind kind, String headline, String detail) {

  /** Each has a shape of its own, so that no state hangs on a colour. */
  public enum Kind {
    NOT_CONNECTED,
    CLEAR,
    VOLTAGE,
    /** The call-sense domain watches live terminals: voltage is expected there. */
    LIVE,
    /** The board has not told, or no longer answers. */
    UNKNOWN
  }

  public static final InterlockState NOT_CONNECTED =
      new InterlockState(Kind.NOT_CONNECTED, "board not connected", "nothing is being checked");
  public static final InterlockState CLEAR =
      new InterlockState(Kind.CLEAR, "interlock clear", "this is not proved dead");
  public static final InterlockState CLEAR_WITHOUT_METAL =
      new InterlockState(Kind.CLEAR, "interlock clear", "not proved dead; not checked to ground");
  public static final InterlockState LIVE =
      new InterlockState(Kind.LIVE, "LIVE WORK", "the equipment runs: hands off the terminals");
  public static final InterlockState UNKNOWN =
      new InterlockState(Kind.UNKNOWN, "interlock not known", "the board has not answered");

  public static final InterlockState SILENT =
      new InterlockState(Kind.UNKNOWN, "board silent", "what it sees is not known");
  public static final InterlockState NOT_LET_GO =
      new InterlockState(Kind.UNKNOWN, "board silent", "whether it let go is not known");
  public static final InterlockState ALONE =
      new InterlockState(Kind.NOT_CONNECTED, "board left alone", "it goes on with the vigil");

  /**
   * Foreign voltage.
   *
   * @param where 'P3', 'P3 and P7'
   * @param what such as '24 V, driven'; may be empty
   */
  public static InterlockState voltage(String where, String what) {
    String detail = "relays open; find and switch off the source";
    return new InterlockState(
        Kind.VOLTAGE, "VOLTAGE AT " + where, what.isEmpty() ? detail : what + ": " + detail);
  }

  public String words() {
    return headline + ": " + detail;
  }
}
