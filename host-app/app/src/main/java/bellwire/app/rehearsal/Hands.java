package bellwire.app.rehearsal;

/** What does a deed to a control by itself: the script of a simulation. */
public interface Hands {
  void perform(Deed deed);
}
