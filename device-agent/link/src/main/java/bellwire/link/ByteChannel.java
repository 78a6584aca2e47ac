package bellwire.link;

/**
 * The byte pipe below the link: a serial device, a pair of in-memory pipes, a socket. Neither call
 * may wait.
 */
public interface ByteChannel {

  /**
   * Takes what has arrived, up to {@code into.length} bytes.
   *
   * @return the number of bytes, 0 for none yet, −1 once the device is gone
   */
  int read(byte[] into);

  /**
   * Hands bytes over in order. Bytes that a device can't take are lost: the endpoints notice and
   * send again, so an implementation needs no queue beyond the device's own.
   */
  void write(byte[] bytes, int off, int len);
}
