package bellwire.app.desk.rehearsal;

import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalSite;
import bellwire.app.report.Celsius;
import bellwire.app.report.RehearsalCautions;
import bellwire.app.visit.RehearsalOrder;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a person has chosen for a rehearsal.
 *
 * @param rehearsal as its file tells it with these times; null while it cannot be read
 * @param trouble why it cannot
 * @param outdoor such as '8 C'
 * @param noSigns answered with yes: the control is none of those that don't suit
 * @param connected answered with yes: it is connected as it has to be
 * @param asked whether somebody is there to be asked, and something to be hurt
 */
record RehearsalWish(
    String name,
    String text,
    @Nullable Rehearsal rehearsal,
    String trouble,
    Map<String, String> times,
    Set<String> options,
    boolean live,
    boolean loads,
    String outdoor,
    boolean noSigns,
    boolean connected,
    boolean asked) {
  private static final double LEAST_CELSIUS = -60;
  private static final double MOST_CELSIUS = 60;

  /** Whether it has to be known how warm it is outdoors. */
  boolean asksOutdoor() {
    Rehearsal of = rehearsal;
    return live && of != null && of.steps().stream().anyMatch(step -> step.runsCompressor());
  }

  private OptionalDouble celsius() {
    return Celsius.parse(outdoor, LEAST_CELSIUS, MOST_CELSIUS);
  }

  /** What is missing or wrong, in words; empty where it can begin. */
  String missing() {
    if (!trouble.isEmpty()) {
      return "The rehearsal's file has to be put right first";
    } else if (rehearsal == null) {
      return "Reading the rehearsal";
    } else if (asksOutdoor() && celsius().isEmpty()) {
      return "Say how warm it is outdoors: '8 C' or '46 F'";
    } else if (asked && !noSigns) {
      return "Look at the control's signs first, and answer";
    } else if (asked && !connected) {
      return "Answer how it is connected first";
    }
    return "";
  }

  RehearsalSite site() {
    double celsius = celsius().orElse(Double.NaN);
    return new RehearsalSite(live, live && celsius < RehearsalCautions.COLD_CELSIUS);
  }

  RehearsalOrder order() {
    return new RehearsalOrder(name, text, times, options, live, loads);
  }
}
