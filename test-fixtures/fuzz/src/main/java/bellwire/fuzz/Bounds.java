package bellwire.fuzz;

/**
 * What one input may cost. Memory is what its thread allocates in all, garbage included, so it
 * bounds what is ever held at once.
 *
 * @param fixedBytes of memory, whatever the input
 * @param bytesPerByte of memory, for each byte of input
 * @param cpuMillis of its thread
 * @param inputBytes longest input that is tried
 */
public record Bounds(long fixedBytes, long bytesPerByte, long cpuMillis, int inputBytes) {

  long bytes(int inputLength) {
    return fixedBytes + bytesPerByte * inputLength;
  }
}
