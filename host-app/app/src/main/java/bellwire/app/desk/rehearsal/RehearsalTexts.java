package bellwire.app.desk.rehearsal;

import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The rehearsals there are to choose from: the built-in ones, and files that a person opened. */
final class RehearsalTexts {
  private static final long MOST_FILE_BYTES = 1 << 20;

  private final List<String> names = new ArrayList<>(RehearsalFile.BUILT_IN);
  private final Map<String, String> own = new LinkedHashMap<>();
  private final Map<String, String> titles = new LinkedHashMap<>();

  /** Built-in ones first. */
  List<String> names() {
    return List.copyOf(names);
  }

  String text(String name) {
    String opened = own.get(name);
    return opened == null ? RehearsalFile.text(name) : opened;
  }

  /** Its full name, as far as that is known. */
  String title(String name) {
    return titles.getOrDefault(name, name);
  }

  void titles(Map<String, String> known) {
    titles.putAll(known);
  }

  /** Adds a file's text, or puts it in the place of the one of that name; whether it is new. */
  boolean add(String name, String text) {
    own.put(name, text);
    return !names.contains(name) && names.add(name);
  }

  /** What the built-in ones are called in full; not for the event thread. */
  static Map<String, String> titles() {
    Map<String, String> all = new LinkedHashMap<>();
    for (String name : RehearsalFile.BUILT_IN) {
      all.put(name, parsed(name, RehearsalFile.text(name), Map.of()).title());
    }
    return all;
  }

  /**
   * Not for the event thread.
   *
   * @param times in the place of the file's own
   */
  static Rehearsal parsed(String name, String text, Map<String, String> times) {
    try {
      return RehearsalFile.parse(name + ".yaml", text, times);
    } catch (FileException e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  static String name(Path file) {
    return String.valueOf(file.getFileName()).replaceFirst("\\.ya?ml$", "");
  }

  /** A file's text; not for the event thread. */
  static String read(Path file) {
    try {
      if (Files.size(file) > MOST_FILE_BYTES) {
        throw new IllegalStateException(file + ": too long for a rehearsal file");
      }
      return Files.readString(file);
    } catch (IOException e) {
      throw new IllegalStateException(
          file + ": cannot be read: is the name right, and may you read it?", e);
    }
  }
}
