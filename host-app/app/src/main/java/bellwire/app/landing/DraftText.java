package bellwire.app.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.LandingPlan;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A draft as the text of a landing file that needs no other file. */
final class DraftText {
  private final StringBuilder out = new StringBuilder();

  private DraftText() {}

  static String of(LandingDraft draft) {
    DraftText text = new DraftText();
    text.head(draft);
    text.cable(draft.landing().surveyed());
    text.plan("as-found", draft.landing().asFound());
    text.plan("as-planned", draft.landing().asPlanned());
    return text.out.toString();
  }

  private void head(LandingDraft draft) {
    line("bellwire-landing: " + LandingFile.VERSION);
    line("title: " + LandingYaml.quoted(draft.landing().title()));
    part("equipment", draft.equipment());
    part("control", draft.control());
    Part old = draft.oldControl();
    if (old != null) {
      part("old-control", old);
    }
  }

  private void part(String key, Part part) {
    if (!part.described()) {
      line(key + ": " + LandingYaml.quoted(part.text()));
      return;
    }
    line(key + ": |2");
    part.text().lines().forEach(one -> line(one.isEmpty() ? "" : "  " + one));
  }

  private void cable(SurveyedCable surveyed) {
    line("cable:");
    if (!surveyed.cable().name().isEmpty()) {
      line("  name: " + LandingYaml.quoted(surveyed.cable().name()));
    }
    line("  conductors:");
    for (Cable.Conductor c : surveyed.cable().conductors()) {
      line("    " + LandingYaml.quoted(c.name()) + ": {" + facts(surveyed, c) + "}");
    }
    if (!surveyed.cable().bridges().isEmpty()) {
      line("  touching:");
      for (Cable.Bridge b : surveyed.cable().bridges()) {
        String other = b.b();
        String second = other == null ? CableReader.METAL : LandingYaml.quoted(other);
        String two = LandingYaml.quoted(b.a()) + ", " + second;
        line("    - {between: [" + two + "], ohm: " + b.ohms() + " ohm, at: " + b.at() + "}");
      }
    }
    if (surveyed.metalChecked()) {
      line("  metal-checked: true");
    }
  }

  private static String facts(SurveyedCable surveyed, Cable.Conductor c) {
    List<String> facts = new ArrayList<>();
    if (c.broken()) {
      facts.add("broken-at: " + c.brokenAt());
    } else {
      facts.add("ohm: " + c.ohms() + " ohm");
      if (c.uOhms() > 0) {
        facts.add("uncertainty: " + c.uOhms() + " ohm");
      }
    }
    add(facts, "near", c.nearColour());
    add(facts, "far", c.farColour());
    add(facts, "port", surveyed.ports().get(c.name()));
    Integer position = surveyed.far().get(c.name());
    if (position != null) {
      facts.add("position: " + position);
    }
    add(facts, "doubt", surveyed.doubtful().get(c.name()));
    return String.join(", ", facts);
  }

  private static void add(List<String> facts, String key, @Nullable String value) {
    if (value != null) {
      facts.add(key + ": " + LandingYaml.quoted(value));
    }
  }

  private void plan(String key, @Nullable LandingPlan plan) {
    if (plan != null) {
      out.append(LandingYaml.plan(key, plan));
    }
  }

  private void line(String text) {
    out.append(text).append('\n');
  }
}
