package bellwire.app.export;

import bellwire.app.report.WholeFile;
import java.io.Closeable;
import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * New files of a directory, all of them or none: each is written under another name, and takes its
 * own when all are written. Closed without {@link #keep}, it leaves nothing.
 */
final class WholeFiles implements Closeable {
  private record Pending(Path part, Path file) {}

  private final Path directory;
  private final List<Pending> pending = new ArrayList<>();
  private final List<Path> kept = new ArrayList<>();
  private boolean whole;

  WholeFiles(Path directory) {
    this.directory = directory;
  }

  /** Where to write what will have this name. */
  Path part(String name) throws IOException {
    Path file = directory.resolve(name);
    if (Files.exists(file)) {
      throw new FileAlreadyExistsException(file.toString());
    }
    Path part = WholeFile.part(file);
    pending.add(new Pending(part, file));
    return part;
  }

  /** Gives them their names. */
  List<Path> keep() throws IOException {
    for (Pending one : pending) {
      // Without replacing: another program may have been faster.
      Files.move(one.part, one.file);
      kept.add(one.file);
    }
    whole = true;
    return List.copyOf(kept);
  }

  @Override
  public void close() throws IOException {
    if (whole) {
      return;
    }
    for (Pending one : pending) {
      Files.deleteIfExists(one.part);
    }
    for (Path file : kept) {
      Files.deleteIfExists(file);
    }
  }
}
