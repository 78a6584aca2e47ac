package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.OpenPhase;
import bellwire.analysis.survey.OpenPlaces;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.link.AgentInstrument;
import bellwire.app.report.ResultJson;
import bellwire.app.report.ResultText;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.BenchFile;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.StringJoiner;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * Broken cables beside mains wiring, charged through chips, agent and link: the place of the break
 * against where it was made. More of them with {@code -Dbellwire.breaks=N}.
 */
class OpenPlaceTest {
  private static final int CABLES = Integer.getInteger("bellwire.breaks", 90);

  /** Wider than this, twice over, says nothing that helps to find it. */
  private static final double UNDECIDED = 0.1;

  private static final class Tally {
    final List<Double> errors = new ArrayList<>();
    int inside;
    int undecided;
    int unread;

    double median() {
      double[] sorted = errors.stream().mapToDouble(e -> e).sorted().toArray();
      return sorted.length == 0 ? 0 : sorted[sorted.length / 2];
    }
  }

  private record Drawn(
      int conductors, double metres, List<Integer> cut, double[] at, String yaml) {}

  @Test
  void oneBrokenOfTwentyMetres() throws Exception {
    Tally tally = run("one of 20 m", 1, true, false, CABLES);
    assertThat(tally.median()).isLessThanOrEqualTo(0.03);
  }

  @Test
  void oneBrokenOfAnyLength() throws Exception {
    run("one of 1 to 60 m", 1, false, false, CABLES);
  }

  @Test
  void twoBroken() throws Exception {
    Tally tally = run("two of 20 m", 2, true, false, CABLES / 2);
    assertThat(tally.median()).isLessThanOrEqualTo(0.03);
  }

  /** What is left of the conductor leaks to a fellow, 100 kohm to 5 Mohm; so may the far part. */
  @Test
  void aBrokenOneThatLeaks() throws Exception {
    Tally tally = run("leaking, 20 m", 1, true, true, CABLES / 3);
    assertThat(tally.median()).isLessThanOrEqualTo(0.03);
    // 100 kohm ahead of the break hide a stub of less than some 5 m.
    assertThat(tally.unread).isLessThanOrEqualTo(CABLES / 3 / 20);
  }

  /** Through the plugs to the words: the place in the drawing, in metres or feet, and in JSON. */
  @Test
  void aSurveySaysWhere() throws Exception {
    Drawn drawn = draw(7, 1, true, false);
    String yaml =
        drawn.yaml
            + "far-end: [{from: 0 s, plug: open}, {from: 30 s, plug: coded}, {from: 60 s, plug: tie}]\n";
    SurveyOutcome outcome = SimulatedSurvey.run(yaml, SimulatedSurvey.options()).outcome;
    ConductorResult broken =
        outcome.result().conductors().stream()
            .filter(c -> c.port() == drawn.cut.get(0))
            .findFirst()
            .orElseThrow();
    Quantity fraction = broken.openAt().fraction();
    Quantity metres = broken.openAt().metres();
    assertThat(fraction.value()).isCloseTo(drawn.at[0], within(4 * fraction.u()));
    assertThat(metres.value()).isCloseTo(20 * drawn.at[0], within(4 * metres.u()));
    String text = String.join(" ", new ResultText(Map.of(), false).lines(outcome.result()));
    assertThat(text.replaceAll(" +", " "))
        .contains(broken.openAt().words())
        .contains(metres + " from the near end");
    String feet = String.join(" ", new ResultText(Map.of(), true).lines(outcome.result()));
    assertThat(feet.replaceAll(" +", " ")).contains(" ft from the near end");
    JsonNode json = new ObjectMapper().readTree(ResultJson.text(outcome, Map.of(), List.of()));
    List<JsonNode> places = new ArrayList<>();
    json.get("conductors").forEach(c -> places.add(c.get("open-at")));
    assertThat(places.stream().filter(p -> !p.isNull()).toList())
        .singleElement()
        .satisfies(
            p -> {
              assertThat(p.get("value").asDouble()).isEqualTo(fraction.value());
              assertThat(p.get("unit").asText()).isEqualTo("of the run");
            });
  }

  private static Tally run(String name, int broken, boolean twenty, boolean leak, int cables)
      throws Exception {
    Tally tally = new Tally();
    for (int seed = 1; seed <= cables; seed++) {
      Drawn drawn = draw(seed, broken, twenty, leak);
      Map<Integer, Quantity> places = places(drawn);
      for (int i = 0; i < drawn.cut.size(); i++) {
        Quantity place = places.get(drawn.cut.get(i));
        if (place == null) {
          tally.unread++;
          continue;
        }
        double error = Math.abs(place.value() - drawn.at[i]);
        tally.errors.add(error);
        tally.inside += error <= 2 * place.u() ? 1 : 0;
        tally.undecided += place.u() > UNDECIDED ? 1 : 0;
        if (error > 3 * place.u() || Boolean.getBoolean("bellwire.each")) {
          System.out.printf(
              Locale.ROOT,
              "%s seed %d: %d conductors %.1f m, %.4f said %s%n",
              name,
              seed,
              drawn.conductors,
              drawn.metres,
              drawn.at[i],
              place);
        }
      }
    }
    double coverage = (double) tally.inside / tally.errors.size();
    System.out.printf(
        Locale.ROOT,
        "%-18s cables %d  places %d  median error %.4f of the run  inside 2 u %.3f  u above %.2f: %d  not read: %d%n",
        name,
        cables,
        tally.errors.size(),
        tally.median(),
        coverage,
        UNDECIDED,
        tally.undecided,
        tally.unread);
    // Three standard deviations of a count beyond the band that is asked for, 90 to 98 %.
    double n = tally.errors.size();
    assertThat(coverage)
        .isBetween(0.90 - 3 * Math.sqrt(0.9 * 0.1 / n), 0.98 + 3 * Math.sqrt(0.98 * 0.02 / n));
    return tally;
  }

  private static Map<Integer, Quantity> places(Drawn drawn) throws Exception {
    SimulatedDevice device = new SimulatedDevice(BenchFile.parse("drawn.yaml", drawn.yaml));
    try (AgentInstrument instrument = SimulatedSurvey.instrument(device)) {
      instrument.open();
      assertThat(instrument.arm()).isEmpty();
      int ports = (1 << drawn.conductors) - 1;
      OpenPhase phase = new OpenPhase(SimulatedSurvey.BOARD, ports | Ports.bit(Ports.METAL), ports);
      for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
        phase.accept(instrument.measure(probes, share -> {}).readings());
      }
      OpenResult open = phase.result();
      return OpenPlaces.of(open, Set.copyOf(drawn.cut));
    }
  }

  private static Drawn draw(int seed, int broken, boolean twenty, boolean leak) {
    Random random = new Random(seed * 48_271L + 10L * broken + (twenty ? 1 : 0));
    int n = 4 + random.nextInt(13);
    double metres = twenty ? 20 : 1 + 59 * random.nextDouble();
    boolean europe = random.nextBoolean();
    TreeSet<Integer> cut = new TreeSet<>();
    while (cut.size() < broken) {
      cut.add(random.nextInt(n));
    }
    StringJoiner lines = new StringJoiner("\n", "", "\n");
    lines.add("bellwire-bench: 1");
    lines.add("seed: " + seed);
    lines.add("cable:");
    lines.add("  gauge: 18 AWG");
    lines.add(String.format(Locale.ROOT, "  length: %.2f m", metres));
    lines.add("  capacitance: 66 pF/m");
    lines.add("  conductors:");
    for (int i = 1; i <= n; i++) {
      lines.add(String.format("    - {port: P%d, colour: c%d, far: %d}", i, i, i));
    }
    double[] at = new double[broken];
    int k = 0;
    List<String> opens = new ArrayList<>();
    for (int port : cut) {
      at[k] = Math.round(1e4 * (0.02 + 0.96 * random.nextDouble())) * 1e-4;
      opens.add(String.format(Locale.ROOT, "{conductor: P%d, at: %.4f}", port + 1, at[k]));
      k++;
    }
    lines.add("opens: [" + String.join(", ", opens) + "]");
    if (leak) {
      int port = cut.first();
      lines.add(
          String.format(
              Locale.ROOT,
              "bridges: [{between: [P%d, P%d], at: %.4f, ohm: %.0f}]",
              port + 1,
              (port + 1 + random.nextInt(n - 1)) % n + 1,
              random.nextDouble(),
              1e5 * Math.pow(50, random.nextDouble())));
    }
    lines.add("spread: {resistance: 0.5 %, capacitance: 2 %, contact: 2..20 mohm}");
    lines.add(
        String.format(
            Locale.ROOT,
            "surroundings: {ambient: 22 C, mains: {volts: %d, hz: %d, capacitance: %.2f pF}}",
            europe ? 230 : 120,
            europe ? 50 : 60,
            // A whole cable's conductors shade one another: 6 pF for all.
            Math.min(1 + 2 * random.nextDouble(), 6.0 / n)));
    lines.add(
        "metal: {clipped: "
            + random.nextBoolean()
            + ", to: "
            + (random.nextBoolean() ? "earth" : "drain")
            + "}");
    lines.add("board: {noise: 1.0}");
    return new Drawn(n, metres, List.copyOf(cut), Arrays.copyOf(at, broken), lines.toString());
  }
}
