package bellwire.simbench;

/**
 * A converter's finite impulse response as a cascade of moving averages, the form in which its
 * response to any exponential is exact.
 *
 * @param boxNanos lengths of the averages, applied one after the other; the kernel is as long as
 *     their sum
 */
public record FilterKernel(long[] boxNanos) {

  public long lengthNanos() {
    long sum = 0;
    for (long box : boxNanos) {
      sum += box;
    }
    return sum;
  }
}
