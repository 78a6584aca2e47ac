package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.attached.Attachment;
import bellwire.analysis.attached.LoadKind;
import bellwire.analysis.attached.Supply;
import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.Finding;
import bellwire.analysis.survey.Foreign;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * Something left attached to a cable, drawn over realistic ranges (common practice, no source), is
 * recognised for what it is, and no coil's kick passes for a foreign voltage. {@code
 * -Dbellwire.loads=N} draws N of each kind.
 */
class AttachedLoadsTest {
  private static final int EACH = Integer.getInteger("bellwire.loads", 12);
  private static final LoadKind[] DRAWN = {
    LoadKind.COIL, LoadKind.SECONDARY, LoadKind.CAPACITOR, LoadKind.DIODE, LoadKind.RESISTANCE
  };

  @Test
  void eachLoadIsRecognised() throws Exception {
    Map<LoadKind, Map<String, Integer>> confusion = new EnumMap<>(LoadKind.class);
    Map<LoadKind, Integer> rights = new EnumMap<>(LoadKind.class);
    List<String> misses = new ArrayList<>();
    double worstHenries = 0;
    for (LoadKind kind : DRAWN) {
      int right = 0;
      for (long seed = 1; seed <= EACH; seed++) {
        Draw draw = new Draw(kind, seed);
        SurveyOutcome outcome =
            SimulatedSurvey.run(draw.yaml, SimulatedSurvey.options(Set.of(), 1)).outcome;
        String said = said(outcome, draw);
        confusion
            .computeIfAbsent(kind, k -> new java.util.TreeMap<>())
            .merge(said, 1, Integer::sum);
        if (said.equals(kind.name())) {
          right++;
          if (kind == LoadKind.COIL || kind == LoadKind.SECONDARY) {
            double henries = outcome.attached().get(0).value();
            worstHenries = Math.max(worstHenries, Math.abs(henries / draw.henries - 1));
          }
        } else {
          misses.add(kind + " seed=" + seed + " said " + said + " " + draw.load);
        }
        assertThat(said).as("%s seed=%d %s", kind, seed, draw.load).doesNotContain("TRIPPED");
      }
      rights.put(kind, right);
    }
    System.out.println("seeds 1 to " + EACH + " of each kind, drawn -> said: " + confusion);
    System.out.println(
        "misses: " + misses + "; worst error of an inductance, share=" + worstHenries);
    rights.forEach(
        (kind, right) ->
            assertThat(right)
                .as("%s: %s", kind, misses)
                .isGreaterThanOrEqualTo((EACH * 95 + 99) / 100));
  }

  /** A cell is a foreign voltage, told as what it is; the board stays disconnected. */
  @Test
  void aCellIsToldAsOne() throws Exception {
    for (long seed = 1; seed <= EACH; seed++) {
      Random random = new Random(~seed);
      double volts = 1.2 + 5 * random.nextDouble();
      int a = 1 + random.nextInt(5);
      int b = 1 + a % 5;
      String yaml =
          cable(seed, 5, 20)
              + String.format(
                  Locale.ROOT,
                  "attached: [{battery: [P%d, P%d], volts: %.2f, ohm: %.2f, at: far}]%n",
                  a,
                  b,
                  volts,
                  0.1 + 5 * random.nextDouble());
      SurveyOutcome outcome =
          SimulatedSurvey.run(yaml, SimulatedSurvey.options(Set.of(), 1)).outcome;
      Foreign foreign =
          java.util.Objects.requireNonNull(outcome.foreign(), () -> "cell not seen: " + yaml);
      assertThat(foreign.a()).as("seed=%d", seed).isEqualTo(a - 1);
      assertThat(foreign.b()).as("seed=%d", seed).isEqualTo(b - 1);
      assertThat(foreign.volts()).as("seed=%d", seed).isCloseTo(volts, within(0.05 * volts));
      assertThat(Supply.words(foreign).orElse("")).as("seed=%d", seed).contains("a cell");
    }
  }

  /** Two or more conductors of a second cable, a fifth to twice as long; none seen without one. */
  @Test
  void aSecondCableUnderTheSameClampsIsSeen() throws Exception {
    int seen = 0;
    List<Long> missed = new ArrayList<>();
    for (long seed = 1; seed <= EACH; seed++) {
      Random random = new Random(~seed);
      int n = 5 + random.nextInt(7);
      int second = 2 + random.nextInt(n / 2 - 1);
      double metres = 10 + 30 * random.nextDouble();
      List<String> ports = new ArrayList<>();
      for (int i = 1; i <= n; i++) {
        ports.add("P" + i);
      }
      Collections.shuffle(ports, random);
      String bare = cable(seed, n, metres);
      String yaml =
          bare
              + String.format(
                  Locale.ROOT,
                  "attached: [{cable: %s, length: %.1f m}]%n",
                  ports.subList(0, second),
                  metres * (0.25 + 1.75 * random.nextDouble()));
      boolean right =
          cables(yaml).stream()
              .anyMatch(
                  f ->
                      f.ports().stream()
                          .map(p -> "P" + (p + 1))
                          .toList()
                          .equals(
                              ports.subList(0, second).stream()
                                  .sorted(AttachedLoadsTest::byNumber)
                                  .toList()));
      seen += right ? 1 : 0;
      if (!right) {
        missed.add(seed);
      }
      assertThat(cables(bare)).as("seed=%d without one", seed).isEmpty();
    }
    System.out.println("second cables seen=" + seen + " of " + EACH + ", missed seeds=" + missed);
    assertThat(seen).as("missed %s", missed).isGreaterThanOrEqualTo((EACH * 95 + 99) / 100);
  }

  private static int byNumber(String a, String b) {
    return Integer.compare(Integer.parseInt(a.substring(1)), Integer.parseInt(b.substring(1)));
  }

  private static List<Finding> cables(String yaml) throws Exception {
    SurveyOutcome outcome = SimulatedSurvey.run(yaml, SimulatedSurvey.options(Set.of(), 1)).outcome;
    return java.util.Objects.requireNonNull(outcome.result()).findings().stream()
        .filter(f -> f.kind() == CableFinding.ATTACHED_CABLE)
        .toList();
  }

  private static String cable(long seed, int n, double metres) {
    StringBuilder text = new StringBuilder("bellwire-bench: 1\nseed: " + seed + "\ncable:\n");
    text.append(
        String.format(Locale.ROOT, "  gauge: 18 AWG%n  length: %.1f m%n  conductors:%n", metres));
    for (int i = 1; i <= n; i++) {
      text.append(String.format("    - {port: P%d, colour: c%d, far: %d}%n", i, i, i));
    }
    return text.append("surroundings: {hum: 5 mV 60 Hz}\n").toString();
  }

  private static String said(SurveyOutcome outcome, Draw draw) {
    if (outcome.stoppedByVoltage()) {
      return "TRIPPED " + outcome.trippedFlags();
    }
    List<Attachment> found = outcome.attached();
    if (found.isEmpty()) {
      return "nothing";
    }
    if (found.size() > 1) {
      return "several " + found;
    }
    Attachment one = found.get(0);
    if (!one.joins(draw.a, draw.b)) {
      return "elsewhere";
    }
    return one.kind() == LoadKind.DIODE && one.a() != draw.a ? "turned" : one.kind().name();
  }

  /** A cable of 4 to 12 conductors with one thing attached between two of them. */
  static final class Draw {
    final String yaml;
    final String load;
    final int a;
    final int b;
    double henries;

    Draw(LoadKind kind, long seed) {
      Random random = new Random(1000 * kind.ordinal() + seed);
      int n = 4 + random.nextInt(9);
      a = random.nextInt(n);
      b = (a + 1 + random.nextInt(n - 1)) % n;
      String pair = "[P" + (a + 1) + ", P" + (b + 1) + "]";
      String at = random.nextBoolean() ? "near" : "far";
      load = load(kind, random, pair, at);
      StringBuilder text = new StringBuilder("bellwire-bench: 1\nseed: " + seed + "\ncable:\n");
      text.append(
          String.format(
              Locale.ROOT,
              "  gauge: %d AWG%n  length: %.1f m%n  conductors:%n",
              18 + 2 * random.nextInt(2),
              8 + 42 * random.nextDouble()));
      for (int i = 1; i <= n; i++) {
        text.append(String.format("    - {port: P%d, colour: c%d, far: %d}%n", i, i, i));
      }
      text.append("attached: [").append(load).append("]\n");
      text.append("surroundings: {hum: 5 mV 60 Hz}\n");
      yaml = text.toString();
    }

    private String load(LoadKind kind, Random random, String pair, String at) {
      return switch (kind) {
        case COIL -> {
          henries = log(random, 0.05, 1);
          String core =
              random.nextBoolean() ? "" : format(", core: %.0f ohm", log(random, 1e3, 1e5));
          yield format(
              "{coil: %s, ohm: %.2f, henry: %.4f, at: %s%s}",
              pair, log(random, 10, 200), henries, at, core);
        }
        case SECONDARY -> {
          henries = log(random, 0.05, 0.6);
          yield format(
              "{secondary: %s, ohm: %.3f, henry: %.4f, at: near}",
              pair, log(random, 0.3, 1), henries);
        }
        case CAPACITOR ->
            format("{capacitor: %s, farad: %.4f uF, at: %s}", pair, log(random, 0.1, 47), at);
        case DIODE ->
            format(
                "{diode: %s, volts: %.3f, ohm: %.1f, at: %s}",
                pair, 0.52 + 0.18 * random.nextDouble(), log(random, 5, 40), at);
        case RESISTANCE ->
            format("{jumper: %s, ohm: %.4f, at: %s}", pair, log(random, 0.01, 500), at);
        case UNKNOWN -> throw new IllegalArgumentException("kind=" + kind);
      };
    }

    private static String format(String format, Object... arguments) {
      return String.format(Locale.ROOT, format, arguments);
    }

    private static double log(Random random, double low, double high) {
      return low * Math.pow(high / low, random.nextDouble());
    }
  }
}
