package bellwire.app.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.SecureRandom;
import java.util.Optional;

/** A file that is written whole or not at all. */
public final class WholeFile {
  private static final SecureRandom NAMES = new SecureRandom();
  private static final int MOST_TRIES = 10;

  private WholeFile() {}

  /** Why {@link #write} can't write there, as far as it shows beforehand. */
  public static Optional<String> obstacle(Path file) {
    if (Files.isDirectory(file)) {
      return Optional.of("is a directory; name a file in it");
    }
    Path directory = file.toAbsolutePath().getParent();
    if (directory == null || !Files.isDirectory(directory)) {
      return Optional.of("no such directory; name a file in one that is there");
    }
    boolean replaced = !Files.exists(file) || Files.isRegularFile(file);
    return Files.isWritable(replaced ? directory : file)
        ? Optional.empty()
        : Optional.of("may not be written; name a file in a directory of your own");
  }

  /**
   * Writes to a file beside the target first, so that a full disk leaves no half file under its
   * name. What is no file, such as a device or a pipe, is written to and never replaced.
   */
  public static void write(Path file, String text) throws IOException {
    write(file, text.getBytes(StandardCharsets.UTF_8));
  }

  /**
   * A new file beside one, to be written in its place and then to take its name. Who may read it
   * follows the umask, as of any program's output; of a file that is replaced, that file.
   */
  public static Path part(Path file) throws IOException {
    Path absolute = file.toAbsolutePath();
    for (int tries = 0; ; tries++) {
      String name = absolute.getFileName() + "." + Long.toHexString(NAMES.nextLong()) + ".part";
      try {
        Path part = Files.createFile(absolute.resolveSibling(name));
        if (Files.isRegularFile(absolute)
            && Files.getFileStore(absolute).supportsFileAttributeView("posix")) {
          Files.setPosixFilePermissions(part, Files.getPosixFilePermissions(absolute));
        }
        return part;
      } catch (FileAlreadyExistsException e) {
        if (tries == MOST_TRIES) {
          throw e;
        }
      }
    }
  }

  /** The same for what is no text. */
  public static void write(Path file, byte[] bytes) throws IOException {
    if (Files.exists(file) && !Files.isRegularFile(file)) {
      Files.write(file, bytes);
      return;
    }
    // A link stays one: the file that it names is replaced.
    Path absolute = Files.exists(file) ? file.toRealPath() : file.toAbsolutePath();
    Path part = part(absolute);
    try {
      Files.write(part, bytes);
      Files.move(part, absolute, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(part);
    }
  }
}
