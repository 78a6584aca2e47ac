package bellwire.app.export;

import bellwire.app.job.VigilRow;
import bellwire.app.job.Watched;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** What is known of a vigil itself, as names and values. */
final class VigilFacts {
  private VigilFacts() {}

  static Map<String, String> of(
      VigilRow row, Optional<Watched> watched, long fromMicros, long toMicros) {
    Map<String, String> facts = new LinkedHashMap<>();
    facts.put("vigil", Long.toString(row.id()));
    facts.put("program", row.program());
    facts.put("started_utc", utc(row.startedUnixMicros()));
    facts.put("started_micros", Long.toString(row.startedMicros()));
    row.ending()
        .ifPresentOrElse(
            ending -> {
              facts.put("ended_utc", utc(row.unixMicros(ending.micros())));
              facts.put("ended_micros", Long.toString(ending.micros()));
              facts.put("outcome", ending.outcome());
            },
            () -> facts.put("outcome", "not ended"));
    facts.put("exported_from_micros", Long.toString(fromMicros));
    if (toMicros != Long.MAX_VALUE) {
      facts.put("exported_to_micros", Long.toString(toMicros));
    }
    watched.ifPresent(asked -> put(facts, asked));
    return facts;
  }

  private static void put(Map<String, String> facts, Watched asked) {
    boolean calls = asked.program().equals("calls");
    facts.put("link_number", Long.toString(asked.vigil()));
    facts.put(calls ? "leads" : "ports", bits(calls ? "X" : "P", asked.ports()));
    if (asked.program().equals("continuity")) {
      facts.put("returned", "P" + (asked.returned() + 1));
      if (!Double.isNaN(asked.shortestOpeningMicros())) {
        facts.put("shortest_opening_micros", Double.toString(asked.shortestOpeningMicros()));
      }
    }
    if (calls) {
      facts.put("wetting", Boolean.toString(asked.wetting()));
      facts.put("loads", bits("X", asked.loads()));
    }
    facts.put("length_micros", Long.toString(asked.lengthMicros()));
    facts.put("board", asked.board());
    facts.put("note", asked.note());
    if (asked.program().equals("trend")) {
      facts.put("expected_ohms", Double.toString(asked.expectedOhms()));
    }
    facts.put("mains_hertz", Integer.toString(asked.mainsHertz()));
    new TreeMap<>(asked.names())
        .forEach((port, name) -> facts.put("name_" + (calls ? "x" : "p") + (port + 1), name));
  }

  private static String bits(String letter, int bits) {
    StringBuilder names = new StringBuilder();
    for (int bit = 0; bit < 16; bit++) {
      if ((bits >> bit & 1) != 0) {
        names.append(names.length() == 0 ? "" : " ").append(letter).append(bit + 1);
      }
    }
    return names.toString();
  }

  private static String utc(long unixMicros) {
    return Instant.EPOCH.plus(unixMicros, ChronoUnit.MICROS).toString();
  }
}
