package bellwire.hardware.deck;

import bellwire.hardware.Part;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The largest stress of each line of the parts list against its ratings, over runs in time. A pin
 * may go beyond its supplies by its rated voltage or, further, while its protection diode carries
 * no more than the rated current. Powers are means over a run; a joule is what one run leaves in a
 * part.
 */
public final class Stress {
  /** The protection diodes of moving.lib: saturation current, resistance. */
  private static final double PAD_AMPS = 1e-15;

  private static final double PAD_OHMS = 5;
  private static final double THERMAL_VOLTS = 0.025852;
  private static final String[][] SUPPLIES = {
    {"V+", "V-"}, {"VDD", "VSS"}, {"AVDD", "AVSS"}, {"VDD", "GND"}
  };

  /**
   * A line's largest stress of one kind.
   *
   * @param kind name of the rating
   */
  public record Row(String line, String kind, double worst, double rating, String where) {
    public double share() {
      return worst / rating;
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "| %s | %s | %.3g | %.3g | %.0f %% | %s |",
          line,
          kind,
          worst,
          rating,
          100 * share(),
          where);
    }
  }

  private final Map<String, Row> rows = new LinkedHashMap<>();

  public List<Row> rows() {
    List<Row> sorted = new ArrayList<>(rows.values());
    // Where a pin went further than its rated voltage, the diode's current is what counts.
    sorted.removeIf(
        row -> row.kind().equals("pin-volts") && rows.containsKey(row.line() + " pin-amps"));
    sorted.sort((a, b) -> Double.compare(b.share(), a.share()));
    return sorted;
  }

  /** Takes a run of a deck in. */
  void add(Deck deck, Waves waves, String run) {
    for (Part part : deck.parts()) {
      switch (part.line().kind()) {
        case "resistor" -> resistor(deck, part, waves, run);
        case "capacitor", "clamp", "solid-state-relay" -> across(part, waves, run, "1", "2");
        case "diode" -> diode(part, waves, run);
        case "mosfet" -> mosfet(part, waves, run);
        case "inductor" -> {}
        default -> pins(deck, part, waves, run);
      }
    }
  }

  private void across(Part part, Waves waves, String run, String a, String b) {
    double most = 0;
    for (int i = 0; i < waves.points(); i++) {
      most = Math.max(most, Math.abs(between(part, waves, i, a, b)));
    }
    note(part, "volts", most, run);
  }

  private void resistor(Deck deck, Part part, Waves waves, String run) {
    double ohms = deck.elements().getOrDefault("R_" + part.ref(), Double.NaN);
    across(part, waves, run, "1", "2");
    double joules = 0;
    for (int i = 1; i < waves.points(); i++) {
      double volts = between(part, waves, i, "1", "2");
      joules += volts * volts / ohms * (waves.seconds(i) - waves.seconds(i - 1));
    }
    note(part, "watts", joules / waves.seconds(waves.points() - 1), run);
  }

  private void diode(Part part, Waves waves, String run) {
    across(part, waves, run, "A", "K");
    double forward = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < waves.points(); i++) {
      forward = Math.max(forward, between(part, waves, i, "A", "K"));
    }
    boolean schottky = part.line().spice().equals("dschottky");
    note(
        part,
        "amps",
        schottky ? amps(forward, 2e-7, 1.05, 4) : amps(forward, 1e-14, 1.3, 1.2),
        run);
  }

  private void mosfet(Part part, Waves waves, String run) {
    across(part, waves, run, "D", "S");
  }

  private void pins(Deck deck, Part part, Waves waves, String run) {
    String[] supply = supply(part);
    if (supply == null) {
      return;
    }
    List<String> pins =
        part.pins().keySet().stream()
            .filter(pin -> deck.hasNode(Deck.node(part.net(pin))))
            .toList();
    double beyond = 0;
    for (int i = 0; i < waves.points(); i++) {
      double high = volts(part, waves, i, supply[0]);
      double low = volts(part, waves, i, supply[1]);
      for (String pin : pins) {
        double volts = volts(part, waves, i, pin);
        beyond = Math.max(beyond, Math.max(volts - high, low - volts));
      }
    }
    Double allowed = part.line().ratings().get("pin-volts");
    if (allowed != null && beyond > allowed) {
      note(part, "pin-amps", amps(beyond, PAD_AMPS, 1, PAD_OHMS), run);
    } else {
      note(part, "pin-volts", beyond, run);
    }
    if (part.line().ratings().containsKey("channel-amps")) {
      channels(deck, part, waves, run);
    }
  }

  private void channels(Deck deck, Part part, Waves waves, String run) {
    for (int channel = 1; channel <= 8; channel++) {
      String ohms = deck.now("R_" + part.ref() + "_" + channel);
      if (ohms == null || Double.parseDouble(ohms) > 100) {
        continue;
      }
      double most = 0;
      for (int i = 0; i < waves.points(); i++) {
        most = Math.max(most, Math.abs(between(part, waves, i, "S" + channel, "D" + channel)));
      }
      note(part, "channel-amps", most / Double.parseDouble(ohms), run);
    }
  }

  private static String @Nullable [] supply(Part part) {
    for (String[] pair : SUPPLIES) {
      if (part.pins().containsKey(pair[0]) && part.pins().containsKey(pair[1])) {
        return pair;
      }
    }
    return null;
  }

  private static double between(Part part, Waves waves, int point, String a, String b) {
    return volts(part, waves, point, a) - volts(part, waves, point, b);
  }

  private static double volts(Part part, Waves waves, int point, String pin) {
    return waves.volts(Deck.node(part.net(pin)), point);
  }

  /** What a diode with a resistance carries at a voltage, by bisection. */
  static double amps(double volts, double saturation, double emission, double ohms) {
    double low = 0;
    double high = Math.max(0, volts / ohms);
    for (int i = 0; i < 80; i++) {
      double middle = (low + high) / 2;
      double needed = emission * THERMAL_VOLTS * Math.log1p(middle / saturation) + middle * ohms;
      if (needed < volts) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private void note(Part part, String kind, double worst, String run) {
    Double rating = part.line().ratings().get(kind);
    if (rating == null) {
      return;
    }
    String key = part.line().name() + " " + kind;
    Row before = rows.get(key);
    if (before == null || worst > 1.001 * before.worst()) {
      rows.put(key, new Row(part.line().name(), kind, worst, rating, part.ref() + ", " + run));
    }
  }
}
