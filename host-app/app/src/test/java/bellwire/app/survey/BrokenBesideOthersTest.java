package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.uncertainty.Quantity;
import java.util.Locale;
import java.util.StringJoiner;
import org.junit.jupiter.api.Test;

/** A break is placed by capacitance while another broken conductor touches something. */
class BrokenBesideOthersTest {
  private static final int P5 = 4;

  /**
   * What lies beyond the break of a conductor that touches metal ahead of it floats, and takes from
   * a stub beside it what a held one would not.
   */
  @Test
  void aBrokenConductorOnMetalDoesNotShiftTheBreakBesideIt() throws Exception {
    for (int seed = 1; seed <= 4; seed++) {
      Quantity place = placeOfP5(seed, "{between: [P6, M], at: 0.55, ohm: 12}");
      System.out.println("seed=" + seed + " place=" + place);
      assertThat(place.value()).isCloseTo(0.62, within(3 * place.u()));
      assertThat(place.u()).isLessThan(0.02);
    }
  }

  @Test
  void aBrokenConductorOnAnotherDoesNotShiftTheBreakBesideIt() throws Exception {
    for (int seed = 1; seed <= 4; seed++) {
      Quantity place = placeOfP5(seed, "{between: [P6, P2], at: 0.3, ohm: 0.5}");
      System.out.println("seed=" + seed + " place=" + place);
      assertThat(place.value()).isCloseTo(0.62, within(3 * place.u()));
      assertThat(place.u()).isLessThan(0.02);
    }
  }

  private static Quantity placeOfP5(int seed, String bridge) throws Exception {
    StringJoiner conductors = new StringJoiner(", ");
    for (int p = 1; p <= 7; p++) {
      conductors.add("{port: P%d, colour: c%d, far: %d}".formatted(p, p, p));
    }
    String yaml =
        String.format(
            Locale.ROOT,
            """
            bellwire-bench: 1
            seed: %d
            cable: {gauge: 18 AWG, length: 25 m, conductors: [%s]}
            opens: [{conductor: P5, at: 0.62}, {conductor: P6, at: 0.58}]
            bridges: [%s]
            far-end: [{from: 0 s, plug: open}, {from: 40 s, plug: coded}, {from: 75 s, plug: tie}]
            spread: {capacitance: 2 %%}
            surroundings: {hum: 5 mV 60 Hz}
            """,
            seed,
            conductors,
            bridge);
    return SimulatedSurvey.run(yaml, SimulatedSurvey.options())
        .outcome
        .result()
        .conductors()
        .stream()
        .filter(c -> c.port() == P5)
        .map(ConductorResult::openAt)
        .findFirst()
        .orElseThrow()
        .fraction();
  }
}
