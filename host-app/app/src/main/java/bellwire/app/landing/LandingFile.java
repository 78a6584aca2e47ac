package bellwire.app.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import bellwire.yaml.Spelling;
import bellwire.yaml.YamlFile;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A landing file: what is at both ends of a cable and what is landed where. docs/landing-files.md
 * states it.
 *
 * @param oldControl what hung on the wall before; null where it is not described
 * @param surveyed the cable; where it was described and not surveyed, without doubts
 * @param asFound under the old control's terminals, any letters where it is not described; null
 *     where not written down
 * @param asPlanned under the new control's; null where there is no plan yet
 */
public record LandingFile(
    String title,
    Equipment equipment,
    Control control,
    @Nullable Control oldControl,
    SurveyedCable surveyed,
    @Nullable LandingPlan asFound,
    @Nullable LandingPlan asPlanned) {
  static final int VERSION = 1;
  private static final String FREE = "free";

  public Cable cable() {
    return surveyed.cable();
  }

  /** The plan on the new control; null where there is none yet. */
  public @Nullable Installation planned() {
    return asPlanned == null ? null : new Installation(equipment, control, cable(), asPlanned);
  }

  /** What was found, on the old control; null where one of them is not described. */
  public @Nullable Installation found() {
    return asFound == null || oldControl == null
        ? null
        : new Installation(equipment, oldControl, cable(), asFound);
  }

  public static LandingFile read(Path file) throws FileException, IOException {
    return parse(file.toString(), YamlFile.read(file), file.toAbsolutePath().resolveSibling(""));
  }

  /**
   * @param file name to blame
   * @param directory that other files are named from
   */
  static LandingFile parse(String file, String text, Path directory)
      throws FileException, IOException {
    Section root = YamlFile.root(file, text, "bellwire-landing", VERSION);
    Equipment equipment = Described.equipment(root, "equipment", directory);
    Control control = Described.control(root, "control", directory);
    Control old =
        root.has("old-control") ? Described.control(root, "old-control", directory) : null;
    SurveyedCable surveyed = CableReader.read(root.required("cable"), directory);
    LandingFile landing =
        new LandingFile(
            root.text("title", "A landing"),
            equipment,
            control,
            old,
            surveyed,
            plan(root, "as-found", equipment, old, surveyed.cable()),
            plan(root, "as-planned", equipment, control, surveyed.cable()));
    root.done();
    return landing;
  }

  private static @Nullable LandingPlan plan(
      Section root, String key, Equipment equipment, @Nullable Control control, Cable cable)
      throws FileException {
    if (!root.has(key)) {
      return null;
    }
    Section s = root.required(key);
    Section landed = s.required("landed");
    List<String> names = cable.conductors().stream().map(Cable.Conductor::name).toList();
    for (String name : landed.keys()) {
      CableReader.conductor(landed, name, name, names);
    }
    List<LandingPlan.Landed> all = new ArrayList<>();
    for (String name : names) {
      all.add(landed.has(name) ? landed(landed, name, equipment, control) : free(name));
    }
    Set<Control.Jumper> jumpers = new LinkedHashSet<>();
    jumpers.addAll(ControlReader.jumpers(s, "jumpers", Point.Side.FAR, terminals(control)));
    jumpers.addAll(
        ControlReader.jumpers(s, "equipment-jumpers", Point.Side.NEAR, equipment.terminals()));
    LandingPlan plan = new LandingPlan(all, jumpers, settings(s, control));
    s.done();
    return plan;
  }

  private static LandingPlan.Landed free(String conductor) {
    return new LandingPlan.Landed(conductor, null, null);
  }

  private static LandingPlan.Landed landed(
      Section s, String conductor, Equipment equipment, @Nullable Control control)
      throws FileException {
    List<String> ends = s.texts(conductor, 2);
    if (ends.size() != 2) {
      throw s.problemAt(
          conductor,
          "not two ends: " + conductor,
          "write equipment's terminal and control's, like '[Y, Y1]'; a free end is 'free'");
    }
    return new LandingPlan.Landed(
        conductor,
        end(s, conductor, ends.get(0), equipment.terminals(), "the equipment"),
        end(s, conductor, ends.get(1), terminals(control), "the control"));
  }

  /** Null for a control that is not described: its letters are taken as they were written down. */
  private static @Nullable List<String> terminals(@Nullable Control control) {
    return control == null ? null : control.terminals();
  }

  private static @Nullable String end(
      Section s, String conductor, String terminal, @Nullable List<String> terminals, String where)
      throws FileException {
    if (terminal.equals(FREE)) {
      return null;
    }
    if (terminals != null && !terminals.contains(terminal)) {
      throw s.problemAt(
          conductor,
          "no such terminal at " + where + ": " + terminal,
          Spelling.remedy(terminal, terminals));
    }
    return terminal;
  }

  /** Every setting of the control; one that is not given stands at its first choice. */
  private static Map<String, String> settings(Section s, @Nullable Control control)
      throws FileException {
    Map<String, String> settings = new LinkedHashMap<>();
    if (control == null) {
      if (s.has("settings")) {
        throw s.problemAt(
            "settings",
            "settings of a control that is not described",
            "name it with 'old-control'");
      }
      return settings;
    }
    for (Control.Setting setting : control.settings()) {
      settings.put(setting.name(), setting.choices().get(0));
    }
    if (s.has("settings")) {
      Section given = s.required("settings");
      for (String name : given.keys()) {
        if (!settings.containsKey(name)) {
          throw given.problemAt(
              name, "no such setting: " + name, Spelling.remedy(name, settings.keySet()));
        }
        String choice = given.text(name);
        List<String> choices =
            control.settings().stream()
                .filter(setting -> setting.name().equals(name))
                .findFirst()
                .orElseThrow()
                .choices();
        if (!choices.contains(choice)) {
          throw given.problemAt(
              name, "no such choice: " + name + "=" + choice, Spelling.remedy(choice, choices));
        }
        settings.put(name, choice);
      }
    }
    return settings;
  }
}
