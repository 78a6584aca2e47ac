package bellwire.app.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.Charset;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;

/** Lines that the operator types, to be asked for without waiting. */
final class Answers {
  private static final int MOST = 64;

  private final BlockingQueue<String> typed = new LinkedBlockingQueue<>(MOST);
  private volatile boolean closed;

  /** Reads on a thread of its own, which does not keep the program from ending. */
  static Answers reading(InputStream in) {
    Answers answers = new Answers();
    Thread reader =
        new Thread(
            () -> {
              try (BufferedReader lines =
                  new BufferedReader(new InputStreamReader(in, Charset.defaultCharset()))) {
                for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                  answers.typed.put(line.strip());
                }
              } catch (IOException e) {
                // As if the input had ended.
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
              answers.closed = true;
            },
            "answers");
    reader.setDaemon(true);
    reader.start();
    return answers;
  }

  /** The next line typed, null where there is none yet. */
  @Nullable String poll() {
    return typed.poll();
  }

  /** Waits for a line; null where there will be none, or where the operator has interrupted. */
  @Nullable String await(BooleanSupplier interrupted) {
    while (!over() && !interrupted.getAsBoolean()) {
      try {
        String line = typed.poll(100, TimeUnit.MILLISECONDS);
        if (line != null) {
          return line;
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return null;
      }
    }
    return null;
  }

  /** Whether nothing will be typed any more. */
  boolean over() {
    return closed && typed.isEmpty();
  }
}
