package bellwire.app.desk;

/**
 * The one thing to do now on a page, shown in the band in large type.
 *
 * @param words an instruction of some 60 characters at most: 'Survey the cable'
 * @param enabled whether a press (or F5) does it; else the words say what has to come first, or
 *     what is being waited for
 * @param run does it; on the event thread
 */
public record NextAction(String words, boolean enabled, Runnable run) {

  public static NextAction of(String words, Runnable run) {
    return new NextAction(words, true, run);
  }

  /** Words alone: the person acts elsewhere, or waits. */
  public static NextAction words(String words) {
    return new NextAction(words, false, () -> {});
  }
}
