package bellwire.analysis.landing;

import bellwire.analysis.findings.MistakeKind;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point.Side;

/** One thing that is other than intended. Every one is a record, equal where it says the same. */
public sealed interface Mistake permits LandingMistake, CopperMistake, PartMistake {
  MistakeKind kind();

  /**
   * The installation with it made; the argument is not changed. Where it can't be made (what it is
   * about is gone by another mistake) the result equals the argument.
   */
  Installation in(Installation installation);

  /** In the trade's words, with conductor and terminal, without a capital and a full stop. */
  String words();

  /** What to do about it, in whole sentences. */
  default String remedy() {
    return kind().remedy();
  }

  /** Chance that this one is made, of itself (CP; theory (80)). */
  default double prior() {
    return kind().prior();
  }

  /** 'at the equipment' or 'at the control'. */
  static String at(Side side) {
    return side == Side.NEAR ? "at the equipment" : "at the control";
  }
}
