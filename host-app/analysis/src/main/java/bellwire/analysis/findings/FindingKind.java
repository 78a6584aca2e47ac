package bellwire.analysis.findings;

/** A kind of finding, in the trade's words. */
public interface FindingKind {
  /** What it is, without a capital and a full stop. */
  String title();

  /** What to do about it, in whole sentences. */
  String remedy();
}
