package bellwire.simbench.kernel;

/** One open device of the simulated kernel. */
interface Node {

  /**
   * An ioctl on it.
   *
   * @param request its number, without direction and size bits told apart
   * @param argument what the caller's pointer leads to; what is written here goes back to it
   * @return its result, or an errno below zero
   */
  int control(int request, byte[] argument);

  /** The last descriptor of it is closed. */
  default void close() {}
}
