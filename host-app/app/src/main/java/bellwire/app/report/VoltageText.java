package bellwire.app.report;

import bellwire.analysis.attached.Supply;
import bellwire.analysis.survey.Foreign;
import bellwire.analysis.survey.Ports;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What is said when foreign voltage, or an interlock trip, ended a survey. */
public final class VoltageText {
  public static final String HEADING = "FOREIGN VOLTAGE: THE BOARD STAYS DISCONNECTED";

  private VoltageText() {}

  /**
   * Sentences: what and where, what it may come from, what to do.
   *
   * @param foreign null where it was gone when it was looked for
   * @param tripped mask of the ports that tripped the interlock
   */
  public static List<String> lines(@Nullable Foreign foreign, int tripped) {
    List<String> lines = new ArrayList<>();
    if (foreign != null) {
      lines.add(foreign.words());
      Supply.words(foreign).ifPresent(lines::add);
    } else {
      lines.add(
          "The interlock tripped and the voltage was gone when it was looked for. Something comes"
              + " and goes.");
    }
    if (tripped != 0) {
      lines.add("interlock tripped at " + Ports.names(Ports.list(tripped)));
    }
    lines.add(
        foreign != null && !foreign.driven()
            ? "Nothing may be connected while in doubt. Find the mains cable that runs beside this"
                + " one; prove dead with your meter."
            : "Switch off every supply at its disconnect, find what feeds the cable, prove it dead"
                + " with your meter: live, dead, live.");
    return lines;
  }

  /**
   * The same from a survey's JSON; empty where the survey has a result.
   *
   * @throws IOException with a sentence that ends in a remedy
   */
  public static List<String> lines(String json) throws IOException {
    JsonNode root =
        SurveyJson.parse(
            "the survey", json.getBytes(StandardCharsets.UTF_8), "survey --json", "look at it");
    JsonNode interlock = root.path("interlock");
    if (!interlock.path("stopped-the-survey").asBoolean(false)) {
      return List.of();
    }
    try {
      return lines(foreign(interlock.path("voltage")), Ports.mask(ports(interlock, "tripped")));
    } catch (IllegalArgumentException e) {
      throw new IOException("the survey: damaged (" + e.getMessage() + "); survey again", e);
    }
  }

  private static @Nullable Foreign foreign(JsonNode voltage) {
    if (!voltage.isObject()) {
      return null;
    }
    List<Integer> between = ports(voltage, "between");
    if (between.isEmpty() || between.size() > 2) {
      throw new IllegalArgumentException("between=" + voltage.path("between"));
    }
    return new Foreign(
        between.get(0),
        between.size() < 2 ? -1 : between.get(1),
        voltage.path("volts-rms").asDouble(),
        voltage.path("volts-rms-under-test-load").asDouble(),
        voltage.path("alternating").asBoolean(),
        ports(voltage, "joined-to-one-of-them"));
  }

  private static List<Integer> ports(JsonNode node, String field) {
    List<Integer> ports = new ArrayList<>();
    node.path(field).forEach(name -> ports.add(port(name.asText())));
    return ports;
  }

  private static int port(String name) {
    for (int port = 0; port < Ports.COUNT; port++) {
      if (Ports.name(port).equals(name)) {
        return port;
      }
    }
    throw new IllegalArgumentException("port=" + name);
  }
}
