package bellwire.app.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import bellwire.yaml.Spelling;
import bellwire.yaml.YamlFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Descriptions of equipment and of controls: the built-in ones, and the user's own files. */
public final class Described {
  static final int VERSION = 1;

  /** Names of the built-in equipment. */
  public static final List<String> EQUIPMENT =
      List.of(
          "furnace-cooling",
          "furnace-cooling-float-in-supply",
          "electric-heat",
          "heat-pump-o",
          "heat-pump-b",
          "two-stage",
          "dual-fuel",
          "heat-only",
          "boiler",
          "zone-panel",
          "two-supplies",
          "isolation-relay");

  /** Names of the built-in controls. */
  public static final List<String> CONTROLS =
      List.of(
          "one-stage",
          "one-stage-battery",
          "one-stage-stealing",
          "heat-only-battery",
          "two-stage-control",
          "heat-pump-control",
          "universal");

  /** Names of the built-in landing files; all but the last are free of findings. */
  public static final List<String> EXAMPLES =
      List.of(
          "example-furnace-cooling",
          "example-float-in-supply",
          "example-electric-heat",
          "example-heat-pump-o",
          "example-heat-pump-b",
          "example-two-stage",
          "example-dual-fuel",
          "example-heat-only",
          "example-boiler",
          "example-zone-panel",
          "example-two-supplies",
          "example-isolation-relay",
          "example-before-power");

  private Described() {}

  /** The file of a built-in description or example, to be copied and changed. */
  public static String text(String name) {
    String folder =
        EQUIPMENT.contains(name) ? "equipment/" : EXAMPLES.contains(name) ? "example/" : "control/";
    try (InputStream in = Described.class.getResourceAsStream(folder + name + ".yaml")) {
      if (in == null) {
        throw new IllegalArgumentException("description=" + name);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Built-in equipment by its name. */
  public static Equipment equipment(String name) throws FileException {
    return equipment(name + ".yaml", text(name));
  }

  /** A built-in control by its name. */
  public static Control control(String name) throws FileException {
    return control(name + ".yaml", text(name));
  }

  /** A built-in landing file by its name. */
  public static LandingFile example(String name) throws FileException {
    try {
      return LandingFile.parse(name + ".yaml", text(name), Path.of(""));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Equipment equipment(String file, String text) throws FileException {
    return new EquipmentReader(YamlFile.root(file, text, "bellwire-equipment", VERSION)).read();
  }

  static Control control(String file, String text) throws FileException {
    return new ControlReader(YamlFile.root(file, text, "bellwire-control", VERSION)).read();
  }

  static Equipment equipment(Section s, String key, Path directory)
      throws FileException, IOException {
    String name = s.text(key);
    if (EQUIPMENT.contains(name)) {
      return equipment(name);
    }
    if (Part.isText(name)) {
      return equipment(s.file(), within(s, key));
    }
    Path file = own(s, key, name, directory, EQUIPMENT);
    return equipment(file.toString(), YamlFile.read(file));
  }

  static Control control(Section s, String key, Path directory) throws FileException, IOException {
    String name = s.text(key);
    if (CONTROLS.contains(name)) {
      return control(name);
    }
    if (Part.isText(name)) {
      return control(s.file(), within(s, key));
    }
    Path file = own(s, key, name, directory, CONTROLS);
    return control(file.toString(), YamlFile.read(file));
  }

  /** A description that stands in the file itself, its lines numbered as the file's. */
  private static String within(Section s, String key) throws FileException {
    return "\n".repeat(s.lineAt(key)) + s.verbatim(key);
  }

  private static Path own(Section s, String key, String name, Path directory, List<String> builtIn)
      throws FileException {
    Path file = directory.resolve(name);
    if (!Files.isRegularFile(file)) {
      throw s.problemAt(
          key,
          "neither built in nor a file beside this one: " + key + "=" + name,
          Spelling.remedy(name, builtIn));
    }
    return file;
  }
}
