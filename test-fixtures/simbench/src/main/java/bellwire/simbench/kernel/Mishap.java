package bellwire.simbench.kernel;

/** What a transfer meets on its way through the kernel; what a chip does wrong is its line's. */
public enum Mishap {
  NONE,
  /** Half of the bytes are moved, and so is said. */
  SHORT,
  /** EIO. */
  INPUT_OUTPUT_ERROR,
  /** ENODEV: the device was taken away. */
  GONE
}
