package bellwire.simbench.chip;

/** What hangs on one chip select. One call is one assertion of it. */
public interface SpiTarget {

  /**
   * Shifts bytes in from the master and out to it.
   *
   * @param fromMaster bytes on the master's output
   * @param toMaster where the target's output goes; written in full
   */
  void frame(byte[] fromMaster, int fromMasterAt, byte[] toMaster, int toMasterAt, int length);
}
