package bellwire.analysis.findings;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** What a person without tools notices, in the words people use for it. */
public enum Symptom {
  NOTHING_WORKS("nothing works at all", "everything is dead", "no heat, no cooling, no fan"),
  CONTROL_BLANK("control is blank", "blank display", "display is dead", "thermostat is blank"),
  BLANK_ON_HEAT("control goes blank on a heat call", "display dies when heat is called"),
  BLANK_ON_COOLING("control goes blank on a cooling call", "display dies when cooling is called"),
  NO_HEAT("nothing happens on a heat call", "no heat", "heat does not come on"),
  NO_COOLING(
      "nothing happens on a cooling call", "no cooling", "cooling does not come on", "ac is dead"),
  ONLY_FAN_ON_HEAT(
      "only the fan runs on a heat call",
      "fan runs but no heat",
      "outdoor unit does not run on a heat call",
      "heat pump does not start on heat"),
  ONLY_FAN_ON_COOLING(
      "only the fan runs on a cooling call",
      "outdoor unit does not start",
      "outdoor unit does not run on a cooling call",
      "compressor does not start"),
  NO_FAN_ON_COOLING(
      "outdoor unit runs on a cooling call, fan does not",
      "no fan on cooling",
      "indoor coil ices up"),
  NO_FAN_ON_HEAT("heat comes on, fan does not", "no fan on heat"),
  NO_FAN("fan does not run when it is switched on", "fan does not work", "no fan"),
  NO_SECOND_STAGE_OF_COOLING("second stage of cooling never comes on", "no second stage cooling"),
  NO_SECOND_STAGE_OF_HEAT(
      "second stage of heat never comes on", "no second stage heat", "no high fire"),
  NO_SECOND_STAGE_IN_EMERGENCY(
      "second stage of emergency heat never comes on", "emergency heat only on low"),
  NO_AUXILIARY_HEAT("auxiliary heat never comes on", "no aux heat", "no backup heat"),
  NO_EMERGENCY_HEAT("emergency heat does nothing", "no emergency heat"),
  FAN_ALWAYS_ON("fan is always on", "fan never stops", "fan runs all the time", "fan always on"),
  OUTDOOR_UNIT_ALWAYS_ON(
      "outdoor unit never stops", "compressor never stops", "cooling never stops", "ac always on"),
  HEAT_ALWAYS_ON("heat never stops", "heat always on", "furnace never stops", "boiler never stops"),
  COOLS_ON_HEAT(
      "cooling runs when heat is called",
      "cold air on a heat call",
      "cooling when heat is called",
      "outdoor unit cools on heat"),
  HEATS_ON_COOLING(
      "heat runs when cooling is called",
      "warm air on a cooling call",
      "heating when cooling is called",
      "hot air on cooling"),
  HEAT_ON_FAN("heat comes on when only the fan is switched on", "heat with fan"),
  OUTDOOR_UNIT_ON_FAN(
      "outdoor unit starts when only the fan is switched on", "cooling starts with fan"),
  OUTDOOR_UNIT_ON_HEAT(
      "outdoor unit runs on a heat call that is not its own", "outdoor unit runs with furnace"),
  HEATS_AND_COOLS("heat and cooling run at once", "both heat and cooling", "heat and ac together"),
  AUXILIARY_HEAT_TOO_SOON(
      "auxiliary heat runs from the first stage on", "aux heat always with the heat pump"),
  OUTDOOR_UNIT_IN_EMERGENCY(
      "outdoor unit runs in emergency heat", "compressor runs in emergency heat"),
  SECOND_STAGE_OF_COOLING_AT_ONCE(
      "second stage of cooling comes on with the first", "cooling always on high"),
  SECOND_STAGE_OF_HEAT_AT_ONCE(
      "second stage of heat comes on with the first", "heat always on high"),
  FUSE_OPENS_AT_ONCE(
      "fuse opens as soon as power is on", "fuse blows at once", "fuse blows immediately"),
  FUSE_OPENS_ON_HEAT("fuse opens on a heat call", "fuse blows on heat"),
  FUSE_OPENS_ON_COOLING("fuse opens on a cooling call", "fuse blows on cooling"),
  FUSE_OPENS_ON_FAN("fuse opens when the fan is switched on", "fuse blows on fan"),
  TRANSFORMER_HOT("transformer is hot at rest", "transformer hums", "smell of hot transformer"),
  TRANSFORMER_HOT_ON_CALL(
      "transformer gets hot on a call", "transformer hums on a call", "transformer overheats"),
  CHATTERS("contactor or relay chatters", "relay clicks all the time", "contactor chatters"),
  HUMS(
      "contactor hums and hardly pulls in",
      "starts only at times",
      "compressor starts only sometimes"),
  ACCESSORY_ALWAYS_ON(
      "humidifier or ventilation runs at the wrong time", "humidifier always on", "water runs"),
  NO_ACCESSORY("humidifier or ventilation never runs", "humidifier does not run");

  /** Words that tell no two symptoms apart. */
  private static final Set<String> EMPTY_WORDS =
      Set.of("a", "an", "the", "is", "are", "it", "its", "to", "of");

  /** Likeness (share of common pairs of letters) from which a symptom is suggested. */
  private static final double ALIKE = 0.4;

  private static final int SUGGESTIONS = 3;

  private final String words;
  private final List<String> synonyms;

  Symptom(String words, String... synonyms) {
    this.words = words;
    this.synonyms = List.of(synonyms);
  }

  /** What hardly anything but the low-voltage loop can show. */
  public static Set<Symptom> seldomOutside() {
    return EnumSet.of(
        NOTHING_WORKS,
        CONTROL_BLANK,
        BLANK_ON_HEAT,
        BLANK_ON_COOLING,
        FUSE_OPENS_AT_ONCE,
        FUSE_OPENS_ON_HEAT,
        FUSE_OPENS_ON_COOLING,
        FUSE_OPENS_ON_FAN,
        TRANSFORMER_HOT,
        TRANSFORMER_HOT_ON_CALL);
  }

  /** For options and files, such as 'fan-always-on'. */
  public String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** As a technician says it, without a capital and a full stop. */
  public String words() {
    return words;
  }

  /** Other words that are taken for it. */
  public List<String> synonyms() {
    return synonyms;
  }

  /**
   * What a text was found to mean.
   *
   * @param symptom null where it is none of them word for word
   * @param near most alike first; empty where the symptom was found
   */
  public record Match(@Nullable Symptom symptom, List<Symptom> near) {
    public Match {
      near = List.copyOf(near);
    }
  }

  /**
   * The symptom that a free text names: by its id, its words or a synonym, in any order where no
   * other is said with the same words.
   */
  public static Match find(String text) {
    List<String> wanted = contentWords(text);
    Set<Symptom> reordered = EnumSet.noneOf(Symptom.class);
    for (Symptom symptom : values()) {
      for (String said : symptom.ways()) {
        List<String> words = contentWords(said);
        if (words.equals(wanted)) {
          return new Match(symptom, List.of());
        }
        if (new HashSet<>(words).equals(new HashSet<>(wanted))) {
          reordered.add(symptom);
        }
      }
    }
    if (reordered.size() == 1) {
      return new Match(reordered.iterator().next(), List.of());
    }
    List<Symptom> near = new ArrayList<>(List.of(values()));
    near.removeIf(s -> s.likeness(text) < ALIKE);
    near.sort(Comparator.comparingDouble((Symptom s) -> s.likeness(text)).reversed());
    return new Match(null, near.subList(0, Math.min(SUGGESTIONS, near.size())));
  }

  private List<String> ways() {
    List<String> ways = new ArrayList<>(synonyms);
    ways.add(words);
    ways.add(id());
    return ways;
  }

  private double likeness(String text) {
    return ways().stream().mapToDouble(way -> dice(way, text)).max().orElse(0);
  }

  private static List<String> contentWords(String text) {
    List<String> found = new ArrayList<>(List.of(plain(text).split(" ")));
    found.removeAll(EMPTY_WORDS);
    return found;
  }

  private static String plain(String text) {
    return text.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", " ").strip();
  }

  /** Twice the pairs of letters in common over all pairs (Dice, Ecology 26, 1945). */
  private static double dice(String a, String b) {
    List<String> left = pairs(plain(a));
    List<String> right = pairs(plain(b));
    int all = left.size() + right.size();
    int common = 0;
    for (String pair : left) {
      if (right.remove(pair)) {
        common++;
      }
    }
    return 2.0 * common / all; // a way of saying it has pairs
  }

  private static List<String> pairs(String text) {
    List<String> pairs = new ArrayList<>();
    for (int k = 0; k + 1 < text.length(); k++) {
      pairs.add(text.substring(k, k + 2));
    }
    return pairs;
  }
}
