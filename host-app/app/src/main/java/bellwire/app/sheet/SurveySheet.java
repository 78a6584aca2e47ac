package bellwire.app.sheet;

import bellwire.analysis.uncertainty.Quantity;
import java.io.IOException;
import java.text.Bidi;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A survey's JSON as plain records. Ports go by name, {@code P1} to {@code P16} and {@code M}.
 *
 * @param stopped whether foreign voltage ended the survey: there is no result then, and every list
 *     but the cautions is empty
 * @param voltage what was found; null where none was, or it was gone when it was looked for
 * @param tripped ports that tripped the interlock
 * @param revision of the board
 * @param phases measured, in order
 * @param length of the run in m, null where not known
 * @param gauge that fits the resistances, null where not told
 * @param inPlace whether what is landed was on the conductors
 * @param ties where far ends were joined in rounds; null where they were not
 */
public record SurveySheet(
    List<String> cautions,
    String revision,
    String agentVersion,
    boolean stopped,
    @Nullable Voltage voltage,
    List<String> tripped,
    List<String> phases,
    boolean metalChecked,
    @Nullable Quantity length,
    @Nullable String gauge,
    boolean inPlace,
    List<Conductor> conductors,
    List<Pair> pairs,
    List<Finding> findings,
    List<Explanation> explanations,
    List<Attached> attached,
    @Nullable Ties ties) {
  /** The clip for bare metal. */
  public static final String METAL = "M";

  /** A verdict, as the survey gives it. */
  public enum Standing {
    SOUND,
    FAULTY,
    UNDECIDED;

    /** 'sound', 'faulty' or 'undecided'. */
    public String word() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }
  }

  /**
   * Foreign voltage.
   *
   * @param between two ports, or one that stands out against board common
   */
  public record Voltage(
      List<String> between, double volts, double loadedVolts, boolean alternating, boolean driven) {
    public Voltage {
      between = List.copyOf(between);
    }
  }

  /**
   * A place along the run.
   *
   * @param fraction of the run from the near end, 0 to 1, with its standard uncertainty
   * @param metres the same in m; null without the run's length
   */
  public record Place(Quantity fraction, @Nullable Quantity metres) {
    /** As the survey has it: a place less certain than this leads nobody to it. */
    private static final double UNDECIDED = 0.1;

    /** Whether it is known well enough to go there. */
    public boolean decided() {
      return fraction.u() <= UNDECIDED;
    }
  }

  /**
   * A conductor.
   *
   * @param colour at the near end, null where not told
   * @param position on the coded plug, or number as taped at the far end; 0 where not identified
   * @param farPossible numbers that it may have, where ties left more than one or told them
   * @param ohms its own, contacts taken off; null where not measured
   * @param openAt where it is broken; null where it is not, or nothing tells
   */
  public record Conductor(
      String port,
      @Nullable String colour,
      int position,
      List<Integer> farPossible,
      double odds,
      @Nullable Quantity ohms,
      @Nullable Place openAt,
      Standing standing,
      String reason) {
    public Conductor {
      farPossible = List.copyOf(farPossible);
    }

    /** 'P1 red', or 'P1'; behind a colour written from right to left a mark ends its direction. */
    public String name() {
      if (colour == null) {
        return port;
      }
      boolean turns = Bidi.requiresBidi(colour.toCharArray(), 0, colour.length());
      return port + " " + colour + (turns ? "\u200e" : "");
    }
  }

  /**
   * Two ports.
   *
   * @param ohms between the two as seen at the near terminals; null where none was detected
   * @param aboveOhms resistance that is certainly exceeded, where {@code ohms} is null; NaN
   *     otherwise
   */
  public record Pair(
      String a,
      String b,
      @Nullable Quantity ohms,
      double aboveOhms,
      Standing standing,
      String reason) {}

  /**
   * What was found.
   *
   * @param kind as in docs/survey-json.md, such as {@code touching-on-the-way}
   * @param words with 'k = 1' behind them where they have figures with their uncertainty
   * @param at where, null where that is not known
   */
  public record Finding(
      String kind,
      List<String> ports,
      String title,
      String words,
      String remedy,
      @Nullable Place at) {
    public Finding {
      ports = List.copyOf(ports);
    }
  }

  /** What would explain all readings. */
  public record Explanation(double probability, boolean explainsAll, List<Fault> faults) {
    public Explanation {
      faults = List.copyOf(faults);
    }
  }

  /**
   * A fault of an explanation.
   *
   * @param kind {@code open}, {@code joint} or {@code bridge}
   * @param ports the conductor, or those of which one is meant
   * @param to what a bridge leads to
   * @param at fraction of the run, null where nothing tells
   */
  public record Fault(
      String kind,
      List<String> ports,
      List<String> to,
      @Nullable Quantity at,
      @Nullable Quantity ohms) {
    public Fault {
      ports = List.copyOf(ports);
      to = List.copyOf(to);
    }
  }

  /**
   * What joins two ports.
   *
   * @param figures those that the kind has: {@code ohm}, {@code henry}, {@code farad}, {@code volt}
   */
  public record Attached(
      String a, String b, String kind, double probability, Map<String, Double> figures) {
    public Attached {
      figures = Map.copyOf(figures);
    }
  }

  /**
   * Far ends joined in rounds.
   *
   * @param explanation {@code as-planned}, {@code opens}, {@code unexplained} or {@code too-many}
   * @param broken far numbers that are a broken conductor in some explanation
   * @param loops two conductors together, contacts taken off, in the order measured
   */
  public record Ties(String explanation, List<Integer> broken, List<Loop> loops) {
    public Ties {
      broken = List.copyOf(broken);
      loops = List.copyOf(loops);
    }
  }

  /**
   * A loop of two conductors joined at their far ends.
   *
   * @param round 1 for the first
   */
  public record Loop(int round, String a, String b, Quantity ohms) {}

  public SurveySheet {
    cautions = List.copyOf(cautions);
    tripped = List.copyOf(tripped);
    phases = List.copyOf(phases);
    conductors = List.copyOf(conductors);
    pairs = List.copyOf(pairs);
    findings = List.copyOf(findings);
    explanations = List.copyOf(explanations);
    attached = List.copyOf(attached);
  }

  /**
   * Reads {@code survey --json}'s document.
   *
   * @throws IOException with a sentence that ends in a remedy: no survey, damaged, or of a later
   *     version
   */
  public static SurveySheet of(String json) throws IOException {
    return SheetReader.read(json);
  }

  /** The same with other conductors, such as with colours told later. */
  public SurveySheet withConductors(List<Conductor> others) {
    return new SurveySheet(
        cautions,
        revision,
        agentVersion,
        stopped,
        voltage,
        tripped,
        phases,
        metalChecked,
        length,
        gauge,
        inPlace,
        others,
        pairs,
        findings,
        explanations,
        attached,
        ties);
  }

  /** The conductor on a port, null where there is none. */
  public @Nullable Conductor conductor(String port) {
    return conductors.stream().filter(c -> c.port().equals(port)).findFirst().orElse(null);
  }

  /** 'P1 red'; a port without a conductor by itself. */
  public String name(String port) {
    Conductor c = conductor(port);
    return c == null ? port : c.name();
  }

  /** The pair of two ports in either order, null where it was not measured. */
  public @Nullable Pair pair(String a, String b) {
    return pairs.stream()
        .filter(p -> p.a().equals(a) && p.b().equals(b) || p.a().equals(b) && p.b().equals(a))
        .findFirst()
        .orElse(null);
  }

  /** Findings that name the port, worst first. */
  public List<Finding> findings(String port) {
    return findings.stream().filter(f -> f.ports().contains(port)).toList();
  }

  /** Ports of the pairs and conductors in the board's order, M last. */
  public List<String> ports() {
    List<String> ports = new ArrayList<>();
    conductors.forEach(c -> ports.add(c.port()));
    if (pairs.stream().anyMatch(p -> p.b().equals(METAL))) {
      ports.add(METAL);
    }
    return ports;
  }
}
