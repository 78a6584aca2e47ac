package bellwire.app.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A landing file to be filled in by hand. */
public final class LandingTemplate {
  private LandingTemplate() {}

  /** For a cable that was surveyed. */
  public static String surveyed(
      String equipment, String control, @Nullable String oldControl, Path survey)
      throws FileException, IOException {
    List<String> names =
        SurveyedCable.read(survey).cable().conductors().stream()
            .map(Cable.Conductor::name)
            .toList();
    return text(
        equipment,
        control,
        oldControl,
        "  survey: '" + survey.toString().replace("'", "''") + "'\n",
        names);
  }

  /** For a cable of which only the colours are known. */
  public static String described(
      String equipment, String control, @Nullable String oldControl, List<String> conductors)
      throws FileException {
    return text(
        equipment,
        control,
        oldControl,
        "  # Or 'survey: FILE', what 'bellwire survey --json FILE' wrote.\n"
            + "  gauge: 18 AWG\n"
            + "  length: 20 m\n"
            + "  conductors: ["
            + String.join(", ", conductors)
            + "]\n",
        conductors);
  }

  private static String text(
      String equipment,
      String control,
      @Nullable String oldControl,
      String cable,
      List<String> conductors)
      throws FileException {
    Equipment e = Described.equipment(equipment);
    Control now = Described.control(control);
    Control before = oldControl == null ? null : Described.control(oldControl);
    StringBuilder out = new StringBuilder();
    out.append("# Fill in what was found, then: bellwire landing plan FILE\n")
        .append("bellwire-landing: 1\n")
        .append("title: A landing\n")
        .append("equipment: ")
        .append(equipment)
        .append("   # terminals: ")
        .append(String.join(" ", e.terminals()))
        .append("\ncontrol: ")
        .append(control)
        .append("   # terminals: ")
        .append(String.join(" ", now.terminals()));
    if (before != null) {
      out.append("\nold-control: ")
          .append(oldControl)
          .append("   # terminals: ")
          .append(String.join(" ", before.terminals()));
    }
    out.append("\ncable:\n").append(cable);
    out.append("as-found:\n")
        .append(
            "  # Each conductor's terminal at the equipment, then the letter at the old control.\n")
        .append("  landed:\n");
    for (String conductor : conductors) {
      out.append("    ").append(conductor).append(": [free, free]\n");
    }
    for (Control.Jumper jumper : (before == null ? now : before).jumpers()) {
      out.append("  # jumpers: [[" + jumper.a() + ", " + jumper.b() + "]]   # if it is fitted\n");
    }
    if (before != null && !before.settings().isEmpty()) {
      out.append("  # settings:   # as the old control is set; each is the first unless given\n");
      for (Control.Setting setting : before.settings()) {
        out.append("  #   " + setting.name() + ": ")
            .append(setting.choices().get(0))
            .append("   # of " + String.join(", ", setting.choices()) + "\n");
      }
    }
    return out.toString();
  }
}
