package bellwire.agent.chip;

import static org.assertj.core.api.Assertions.assertThat;

import com.pi4j.io.spi.Spi;
import java.lang.reflect.Proxy;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * An SPI device that expects exact frames in order and answers each as told. A frame left over at
 * the end is a failure too.
 */
final class ScriptedSpi {
  private record Frame(byte[] expected, byte[] answer, int returned) {}

  private final Deque<Frame> frames = new ArrayDeque<>();
  private int seen;

  /** Hex bytes, spaces allowed. */
  ScriptedSpi expect(String sent, String answer) {
    byte[] out = bytes(sent);
    byte[] in = bytes(answer);
    assertThat(in).hasSameSizeAs(out);
    frames.add(new Frame(out, in, out.length));
    return this;
  }

  ScriptedSpi expectFailing(String sent, int returned) {
    byte[] out = bytes(sent);
    frames.add(new Frame(out, new byte[out.length], returned));
    return this;
  }

  void done() {
    assertThat(frames).as("frames expected and not seen").isEmpty();
  }

  Spi spi() {
    return (Spi)
        Proxy.newProxyInstance(
            Spi.class.getClassLoader(),
            new Class<?>[] {Spi.class},
            (proxy, method, arguments) -> {
              if (!method.getName().equals("transfer") || arguments.length != 5) {
                throw new AssertionError("only the five-argument transfer is safe: " + method);
              }
              return transfer(
                  (byte[]) arguments[0],
                  (int) arguments[1],
                  (byte[]) arguments[2],
                  (int) arguments[3],
                  (int) arguments[4]);
            });
  }

  private int transfer(byte[] out, int outAt, byte[] in, int inAt, int length) {
    @Nullable Frame frame = frames.poll();
    byte[] sent = new byte[length];
    System.arraycopy(out, outAt, sent, 0, length);
    String name = "frame " + seen++;
    assertThat(frame).as(name + " unexpected: " + hex(sent)).isNotNull();
    assertThat(hex(sent)).as(name).isEqualTo(hex(frame.expected));
    System.arraycopy(frame.answer, 0, in, inAt, length);
    return frame.returned;
  }

  private static byte[] bytes(String hex) {
    return HexFormat.of().parseHex(hex.replace(" ", ""));
  }

  private static String hex(byte[] bytes) {
    return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes);
  }
}
