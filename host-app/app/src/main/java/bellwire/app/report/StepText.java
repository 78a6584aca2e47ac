package bellwire.app.report;

import bellwire.analysis.calls.Level;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.Step;
import bellwire.app.rehearsal.Terminal;
import bellwire.app.rehearsal.Times;
import java.util.ArrayList;
import java.util.List;

/** A rehearsal's steps and terminals in words. */
public final class StepText {
  public static final String POWER_FIRST = "First give the control its power back.";

  public static final String TOO_COLD =
      "TOO COLD TO RUN THE COMPRESSOR. Switch off, lift the outdoor pair, switch on again, and see the"
          + " call only; or skip the step.";

  private StepText() {}

  /** 'X1 to W, X2 to Y, XC to C'. */
  public static String leads(Rehearsal rehearsal) {
    StringBuilder leads = new StringBuilder();
    List<Terminal> terminals = rehearsal.terminals();
    for (int lead = 0; lead < terminals.size(); lead++) {
      leads.append("X").append(lead + 1).append(" to ").append(terminals.get(lead).name());
      leads.append(", ");
    }
    return leads
        .append(
            rehearsal.feed() == Rehearsal.Feed.AC ? "XC to C" : "XW to the contacts' common side")
        .toString();
  }

  /** What each terminal should do: 'W1 (heat) within 5 min; and Y, G at rest'. */
  public static String expected(Rehearsal rehearsal, Step step) {
    List<String> parts = new ArrayList<>();
    for (Terminal t : rehearsal.terminals()) {
      String time = step.asks().get(t.name());
      if (time != null) {
        parts.add(t.words() + " within " + Times.words(rehearsal.micros(time)));
      }
    }
    List<String> rest =
        rehearsal.terminals().stream().filter(step::unwanted).map(StepText::named).toList();
    if (!rest.isEmpty()) {
      parts.add((parts.isEmpty() ? "" : "and ") + String.join(", ", rest) + " at rest");
    }
    return String.join("; ", parts);
  }

  /** A terminal's name, with its rest where that is not off. */
  private static String named(Terminal terminal) {
    return terminal.name() + (terminal.rest() == Level.ON ? " (on)" : "");
  }

  public static String level(Level level) {
    return switch (level) {
      case ON -> "ON";
      case OFF -> "off";
      case WEAK -> "weak";
      case UNKNOWN -> "?";
    };
  }

  /**
   * What a step wants of a terminal, and whether it has it.
   *
   * @param sinceMicros since the step began
   */
  public static String wanted(
      Rehearsal rehearsal, Step step, Terminal t, Level level, long sinceMicros) {
    String time = step.asks().get(t.name());
    if (time != null && t.called(level)) {
      return "called";
    } else if (time != null) {
      long left = rehearsal.micros(time) - sinceMicros;
      return left > 0 ? "awaited, " + Times.clock(left) + " more" : "LATE by " + Times.clock(-left);
    } else if (!step.unwanted(t)) {
      return "as it likes";
    }
    return t.released(level) ? "at rest" : "should be at rest";
  }

  /** Asked in a live rehearsal after a step that has something to hear. */
  public static String listen(Step step) {
    return "Off at the terminal is not stopped. Expected of the equipment: "
        + step.listen()
        + ". Was it so?";
  }

  /** As what was seen or heard is noted. */
  public static String observed(Step step, String said) {
    return switch (said.strip().toLowerCase(java.util.Locale.ROOT)) {
      case "yes", "y" -> "as expected: " + step.listen();
      case "no", "n" -> "NOT as expected: " + step.listen();
      case "" -> "nobody looked";
      default -> said.strip();
    };
  }
}
