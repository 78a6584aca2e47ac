package bellwire.fuzz;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.stream.Stream;

/** A directory of a target's own, empty for each input and gone at the end. */
final class Scratch {
  private final Path directory;

  Scratch(String name) {
    try {
      directory = Files.createTempDirectory("bellwire-fuzz-" + name);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Runtime.getRuntime().addShutdownHook(new Thread(this::remove));
  }

  Path file(String name, byte[] content) throws IOException {
    return Files.write(directory.resolve(name), content);
  }

  Path directory() {
    return directory;
  }

  void empty() throws IOException {
    try (Stream<Path> all = Files.walk(directory)) {
      for (Path one : all.sorted(Comparator.reverseOrder()).toList()) {
        if (!one.equals(directory)) {
          Files.delete(one);
        }
      }
    }
  }

  private void remove() {
    try {
      empty();
      Files.delete(directory);
    } catch (IOException e) {
      // Left to whoever tidies up temporary files.
    }
  }
}
