package bellwire.fuzz;

/** A place where a stranger's bytes come in. Keeps nothing from one input to the next. */
public interface Target {

  /**
   * Returns where the bytes were taken, or refused as they may be. Whatever it throws is a finding.
   */
  void take(byte[] input) throws Exception;
}
