package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.attached.Landing;
import bellwire.analysis.attached.LandingChange;
import bellwire.analysis.attached.LandingComparison;
import bellwire.analysis.findings.ChangeFinding;
import bellwire.analysis.survey.FarEndKind;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * In place at equipment with a secondary from P1 to P2, two to four coils from others to P2, and
 * sometimes a jumper from P1: a landing that is as it was, and four that are not, drawn with the
 * tie plug on. {@code -Dbellwire.landings=N} draws N of each.
 */
class LandingTest {
  private static final int EACH = Integer.getInteger("bellwire.landings", 6);

  private enum Wrong {
    NOTHING,
    TOUCHING,
    EXTRA_JUMPER,
    MISSING_JUMPER,
    LOOSE
  }

  @Test
  void landingsAreComparedWithWhatTheyWere() throws Exception {
    Map<Wrong, Map<String, Integer>> confusion = new EnumMap<>(Wrong.class);
    Map<Wrong, Integer> rights = new EnumMap<>(Wrong.class);
    List<String> misses = new ArrayList<>();
    for (Wrong wrong : Wrong.values()) {
      int right = 0;
      for (long seed = 1; seed <= EACH; seed++) {
        Draw draw = new Draw(wrong, seed);
        Landing before = landing(draw.before);
        Landing after = landing(draw.after);
        List<LandingChange> changes =
            before == null || after == null
                ? List.of()
                : new LandingComparison(before, after).changes();
        String said = before == null || after == null ? "tripped" : said(changes, draw);
        confusion.computeIfAbsent(wrong, w -> new TreeMap<>()).merge(said, 1, Integer::sum);
        if (said.equals(wrong == Wrong.NOTHING ? "nothing" : "right")) {
          right++;
        } else {
          misses.add(wrong + " seed=" + seed + " " + changes + " " + draw.what);
        }
      }
      rights.put(wrong, right);
    }
    System.out.println("seeds 1 to " + EACH + " of each: " + confusion + " misses " + misses);
    rights.forEach(
        (wrong, right) ->
            assertThat(right)
                .as("%s: %s", wrong, misses)
                .isGreaterThanOrEqualTo(wrong == Wrong.NOTHING ? EACH : (EACH * 95 + 99) / 100));
  }

  private static String said(List<LandingChange> changes, Draw draw) {
    if (changes.isEmpty()) {
      return "nothing";
    }
    boolean right =
        changes.size() == 1
            && changes.get(0).kind() == draw.kind
            && changes.get(0).ports().equals(draw.ports);
    return right ? "right" : "else";
  }

  /** Null where a coil's kick ended the survey: nothing is told then, which counts as a miss. */
  private static @Nullable Landing landing(String yaml) throws Exception {
    SurveyOutcome outcome =
        SimulatedSurvey.runInPlace(yaml, SimulatedSurvey.options(Set.of(FarEndKind.TIE), 60))
            .outcome;
    if (outcome.stoppedByVoltage()) {
      return null;
    }
    assertThat(outcome.ties()).as(yaml).isNotEmpty();
    return Objects.requireNonNull(outcome.landing());
  }

  private static final class Draw {
    final String before;
    final String after;
    String what = "";
    ChangeFinding kind = ChangeFinding.JOINED;
    List<Integer> ports = List.of();

    Draw(Wrong wrong, long seed) {
      Random random = new Random(1000 * wrong.ordinal() + seed);
      int n = 5 + random.nextInt(4);
      int coils = 2 + random.nextInt(Math.min(3, n - 3));
      List<String> equipment = new ArrayList<>();
      equipment.add(
          format(
              "{secondary: [P1, P2], ohm: %.3f, henry: %.3f}",
              log(random, 0.3, 1), log(random, 0.05, 0.6)));
      for (int k = 0; k < coils; k++) {
        equipment.add(
            format(
                "{coil: [P%d, P2], ohm: %.2f, henry: %.3f, core: %.0f ohm}",
                3 + k, log(random, 10, 200), log(random, 0.05, 1), log(random, 2e3, 5e4)));
      }
      boolean jumper = wrong == Wrong.MISSING_JUMPER || random.nextBoolean();
      String bridge = format("{jumper: [P1, P%d], ohm: %.3f}", n, log(random, 0.01, 0.05));
      List<String> landed = new ArrayList<>(equipment);
      if (jumper) {
        landed.add(bridge);
      }
      String copper = cable(random, n);
      before = copper + "seed: " + (2 * seed) + "\nattached: " + landed + "\n";
      List<String> changed = new ArrayList<>(landed);
      String contacts = "";
      int a = 2 + random.nextInt(n - 3);
      switch (wrong) {
        case NOTHING -> {}
        case TOUCHING -> {
          int b = random.nextInt(a);
          what = format("{jumper: [P%d, P%d], ohm: %.3f}", b + 1, a + 1, log(random, 0.02, 1));
          changed.add(what);
          ports = List.of(b, a);
        }
        case EXTRA_JUMPER -> {
          what = format("{jumper: [P1, P%d], ohm: %.3f}", a + 1, log(random, 0.01, 0.05));
          changed.add(what);
          ports = List.of(0, a);
        }
        case MISSING_JUMPER -> {
          what = bridge;
          changed.remove(bridge);
          kind = ChangeFinding.PARTED;
          ports = List.of(0, n - 1);
        }
        case LOOSE -> {
          what = format("{conductor: P%d, end: near, ohm: %.3f}", a + 1, log(random, 0.3, 30));
          contacts = "contacts: [" + what + "]\n";
          kind = ChangeFinding.LOOSE;
          ports = List.of(a);
        }
      }
      after = copper + "seed: " + (2 * seed + 1) + "\n" + contacts + "attached: " + changed + "\n";
    }

    private static String cable(Random random, int n) {
      StringBuilder text = new StringBuilder("bellwire-bench: 1\ncable:\n");
      text.append(
          format(
              "  gauge: 18 AWG%n  length: %.1f m%n  conductors:%n", 8 + 32 * random.nextDouble()));
      for (int i = 1; i <= n; i++) {
        text.append(format("    - {port: P%d, colour: c%d, far: %d}%n", i, i, i));
      }
      return text.append("far-end: [{from: 0 s, plug: open}, {from: 40 s, plug: tie}]\n")
          .toString();
    }

    private static String format(String format, Object... arguments) {
      return String.format(Locale.ROOT, format, arguments);
    }

    private static double log(Random random, double low, double high) {
      return low * Math.pow(high / low, random.nextDouble());
    }
  }
}
