package bellwire.app.desk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * What of a directory is offered: its directories, then files of the kinds wanted, each by name.
 *
 * @param path absolute
 * @param entries two thousand at most
 * @param trouble why it can't be shown; empty where it can
 */
record Folder(Path path, List<Entry> entries, String trouble) {
  private static final int MOST = 2000;

  /** A line of the list. */
  record Entry(Path path, boolean directory) {
    String words() {
      return directory ? path.getFileName() + "/" : String.valueOf(path.getFileName());
    }
  }

  /** Reads it; not for the event thread. */
  static Folder read(Path directory, List<String> suffixes) {
    Path path = directory.toAbsolutePath().normalize();
    List<Entry> entries = new ArrayList<>();
    try (Stream<Path> found = Files.list(path)) {
      found
          .filter(p -> !String.valueOf(p.getFileName()).startsWith("."))
          .map(p -> new Entry(p, Files.isDirectory(p)))
          .filter(e -> e.directory() || wanted(e.path(), suffixes))
          .limit(MOST)
          .forEach(entries::add);
    } catch (IOException | java.io.UncheckedIOException e) {
      return new Folder(path, List.of(), path + " cannot be read; choose another folder.");
    }
    entries.sort(
        Comparator.comparing((Entry e) -> !e.directory())
            .thenComparing(e -> e.words().toLowerCase(Locale.ROOT)));
    return new Folder(path, List.copyOf(entries), "");
  }

  private static boolean wanted(Path file, List<String> suffixes) {
    String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
    return suffixes.isEmpty() || suffixes.stream().anyMatch(name::endsWith);
  }
}
