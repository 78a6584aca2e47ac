package bellwire.analysis.landing;

import bellwire.analysis.loop.Installation;

/** One thing that is other than intended. Every one is a record, equal where it says the same. */
public sealed interface Mistake permits Mistake.Placeholder {
  /** The installation with it made; the argument is not changed. */
  Installation in(Installation intended);

  /** In the trade's words, with conductor and terminal, without a capital and a full stop. */
  String words();

  /** What to do about it, in whole sentences. */
  String remedy();

  /** How often it is met, relative to the others (CP, theory (81)). */
  double prior();

  record Placeholder(String words) implements Mistake {
    @Override
    public Installation in(Installation intended) {
      return intended;
    }

    @Override
    public String remedy() {
      return "";
    }

    @Override
    public double prior() {
      return 0;
    }
  }
}
