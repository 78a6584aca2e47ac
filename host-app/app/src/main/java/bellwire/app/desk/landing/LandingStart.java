package bellwire.app.desk.landing;

import bellwire.app.job.CableRow;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobRecords;
import bellwire.app.job.LandingRow;
import bellwire.app.job.SurveyRow;
import bellwire.app.landing.Described;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.Part;
import bellwire.app.landing.SurveyedCable;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** The landing of a cable as the job has it, or one to begin with. On the job's thread. */
final class LandingStart {
  /**
   * @param cable its row; 0 where the job has no cable yet
   * @param row of the landing; 0 where it is a new one
   * @param trouble why what was stored is not shown; empty where it is
   */
  record Opened(long cable, long row, LandingDraft draft, Known known, String trouble) {}

  /**
   * What the job tells beside the landing.
   *
   * @param surveyed the cable in view by its newest survey with the conductors lifted; null without
   */
  record Known(List<CableRow> cables, @Nullable SurveyedCable surveyed) {
    Known {
      cables = List.copyOf(cables);
    }
  }

  /** In the jacket's order: common practice, no source. */
  private static final List<String> COLOURS =
      List.of("white", "red", "green", "blue", "yellow", "brown", "orange", "black");

  private static final Pattern NAME = Pattern.compile("\\d{1,2}\\s*-\\s*(\\d{1,2})");

  /** 25 m of 18 AWG, about 21 ohm/km. */
  private static final double ASSUMED_OHMS = 0.5;

  private final JobRecords job;

  LandingStart(JobRecords job) {
    this.job = job;
  }

  /**
   * @param wanted cable; 0 for the first
   */
  Opened open(long wanted) throws JobFileException {
    List<CableRow> cables = job.cables();
    CableRow cable =
        cables.stream()
            .filter(c -> wanted == 0 || c.id() == wanted)
            .findFirst()
            .orElse(cables.isEmpty() ? null : cables.get(0));
    long id = cable == null ? 0 : cable.id();
    LandingRow stored = null;
    for (LandingRow row : job.landings()) {
      stored = row.cable() == id ? row : stored;
    }
    String trouble = "";
    if (stored != null) {
      try {
        LandingDraft draft = LandingDraft.read("the landing", stored.text());
        return new Opened(id, stored.id(), draft, known(id), "");
      } catch (FileException e) {
        trouble = e.getMessage() + ". A new one is begun; the old one stays in the job.";
      }
    }
    return new Opened(id, 0, fresh(cable), known(id), trouble);
  }

  Known known(long cable) throws JobFileException {
    return new Known(job.cables(), surveyed(cable));
  }

  /** The cable as it was surveyed last with the conductors lifted; null where it was not. */
  @Nullable SurveyedCable surveyed(long cable) throws JobFileException {
    List<SurveyRow> surveys = job.surveyResults();
    for (int i = surveys.size() - 1; i >= 0; i--) {
      SurveyRow row = surveys.get(i);
      if (row.cable() == cable && !row.inPlace()) {
        try {
          return SurveyedCable.of(name(cable), row.json());
        } catch (IOException e) {
          // Ended by voltage: it has no result.
        }
      }
    }
    return null;
  }

  private String name(long cable) throws JobFileException {
    return job.cables().stream()
        .filter(c -> c.id() == cable)
        .map(CableRow::name)
        .findFirst()
        .orElse("cable");
  }

  private LandingDraft fresh(@Nullable CableRow cable) throws JobFileException {
    String old = told(Fact.OLD_CONTROL, Described.CONTROLS, "");
    try {
      return LandingDraft.start(
          "Landing" + (cable == null ? "" : " of " + cable.name()),
          new Part(told(Fact.SYSTEM, Described.EQUIPMENT, "furnace-cooling")),
          new Part(told(Fact.NEW_CONTROL, Described.CONTROLS, "one-stage")),
          old.isEmpty() ? null : new Part(old),
          copper(cable));
    } catch (FileException e) {
      throw new IllegalStateException(e);
    }
  }

  private String told(Fact fact, List<String> known, String otherwise) throws JobFileException {
    String text = job.fact(fact).strip();
    return known.contains(text) ? text : otherwise;
  }

  private SurveyedCable copper(@Nullable CableRow cable) throws JobFileException {
    if (cable == null) {
      return SurveyedCable.assumed("", COLOURS.subList(0, 5), ASSUMED_OHMS);
    }
    SurveyedCable measured = surveyed(cable.id());
    if (measured != null) {
      return measured;
    }
    List<String> names = new ArrayList<>();
    for (ConductorRow c : job.conductors(cable.id())) {
      String colour = c.nearColour().strip();
      names.add(colour.isEmpty() || names.contains(colour) ? "P" + (c.port() + 1) : colour);
    }
    return SurveyedCable.assumed(
        cable.name(), names.isEmpty() ? usual(cable.name()) : names, ASSUMED_OHMS);
  }

  /** As many as a name such as 18-5 says. */
  private static List<String> usual(String name) {
    Matcher matcher = NAME.matcher(name.toLowerCase(Locale.ROOT));
    int count = matcher.find() ? Integer.parseInt(matcher.group(1)) : 5;
    return COLOURS.subList(0, Math.max(2, Math.min(count, COLOURS.size())));
  }
}
