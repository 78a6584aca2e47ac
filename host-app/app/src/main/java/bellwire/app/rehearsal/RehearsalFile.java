package bellwire.app.rehearsal;

import bellwire.yaml.FileException;
import bellwire.yaml.YamlFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/** Rehearsal files: the built-in ones, and the user's own. docs/rehearsal-files.md states them. */
public final class RehearsalFile {
  private static final int VERSION = 1;

  /** Names of the built-in rehearsals. */
  public static final List<String> BUILT_IN =
      List.of(
          "furnace-cooling",
          "electric-heat",
          "heat-pump-o",
          "heat-pump-b",
          "two-stage",
          "dual-fuel",
          "heat-only",
          "boiler-dry",
          "zone-panel",
          "two-supplies");

  private RehearsalFile() {}

  /**
   * @param times values of times in place of the file's, such as rest to '4 min'
   */
  public static Rehearsal read(Path path, Map<String, String> times)
      throws FileException, IOException {
    String name = String.valueOf(path.getFileName()).replaceFirst("\\.ya?ml$", "");
    return parse(name, path.toString(), YamlFile.read(path), times);
  }

  /** A built-in rehearsal by its name. */
  public static Rehearsal builtIn(String name, Map<String, String> times) throws FileException {
    return parse(name + ".yaml", text(name), times);
  }

  /** The file of a built-in rehearsal, to be copied and changed. */
  public static String text(String name) {
    try (InputStream in = RehearsalFile.class.getResourceAsStream(name + ".yaml")) {
      if (in == null) {
        throw new IllegalArgumentException("rehearsal=" + name);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * @param file name to blame
   */
  public static Rehearsal parse(String file, String text, Map<String, String> times)
      throws FileException {
    // Not by way of a path: a job says what its rehearsal was called, and may say anything.
    String name = file.substring(file.lastIndexOf('/') + 1).replaceFirst("\\.ya?ml$", "");
    return parse(name, file, text, times);
  }

  private static Rehearsal parse(String name, String file, String text, Map<String, String> times)
      throws FileException {
    return new RehearsalReader(
            name, YamlFile.root(file, text, "bellwire-rehearsal", VERSION), times)
        .read();
  }
}
