package bellwire.hardware.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.board.BoardDescription;
import bellwire.board.CodedPlug;
import bellwire.hardware.deck.NotesTable;
import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import bellwire.reference.Table;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class ErrorBudgetTest {
  private final BoardDescription board = BoardDescription.revisionA();

  /**
   * JCGM 100:2008, H.1, the end gauge: u = 32 nm, 16 degrees of freedom, t₉₉ = 2.92, through the
   * same calculator. The model is H.3 of the example: l_S + d − l_S (δα·θ + α_S·δθ).
   */
  @Test
  void theEndGaugeOfTheGuide() {
    Table inputs = ReferenceTables.load("gum/h1-inputs");
    Table results = ReferenceTables.load("gum/h1-results");
    assertThat(inputs.status().decides() && results.status().decides()).isTrue();
    Row gauge = inputs.rows().get(0);
    Row difference = inputs.rows().get(1);
    Row expansion = inputs.rows().get(2);
    Row deviation = inputs.rows().get(3);
    Row expansionDifference = inputs.rows().get(4);
    Row temperatureDifference = inputs.rows().get(5);
    double length = gauge.number("value");
    List<Input> quantities =
        List.of(
            new Input(
                "l_S",
                Shape.NORMAL,
                gauge.number("uncertainty"),
                "nm",
                gauge.number("degreesOfFreedom")),
            new Input(
                "d",
                Shape.NORMAL,
                difference.number("uncertainty"),
                "nm",
                difference.number("degreesOfFreedom")),
            new Input("alpha_S", Shape.RECTANGULAR, expansion.number("halfWidth"), "/K"),
            new Input("theta", Shape.NORMAL, deviation.number("uncertainty"), "K"),
            new Input(
                "delta alpha",
                Shape.RECTANGULAR,
                expansionDifference.number("halfWidth"),
                "/K",
                expansionDifference.number("degreesOfFreedom")),
            new Input(
                "delta theta",
                Shape.RECTANGULAR,
                temperatureDifference.number("halfWidth"),
                "K",
                temperatureDifference.number("degreesOfFreedom")));
    java.util.function.ToDoubleFunction<Map<String, Double>> model =
        d ->
            length
                + of(d, "l_S")
                + difference.number("value")
                + of(d, "d")
                - (length + of(d, "l_S"))
                    * (of(d, "delta alpha") * (deviation.number("value") + of(d, "theta"))
                        + (expansion.number("value") + of(d, "alpha_S")) * of(d, "delta theta"));
    ErrorBudget budget = ErrorBudget.of(quantities, model, model);
    Row published = results.rows().get(0);
    assertThat(budget.value()).isEqualTo(published.number("lengthNm"));
    assertThat(budget.u()).isCloseTo(published.number("uncertaintyNmMoreDigits"), within(0.05));
    assertThat(budget.u("delta alpha")).isCloseTo(2.9, within(0.05));
    assertThat(budget.u("delta theta")).isCloseTo(16.6, within(0.05));
    assertThat(budget.effectiveDegreesOfFreedom())
        .isCloseTo(published.number("effectiveDegreesOfFreedomMoreDigits"), within(0.1));
    assertThat(budget.coverageFactor(0.99))
        .isCloseTo(published.number("coverageFactor99"), within(0.005));
    assertThat(budget.coverageFactor(0.99) * budget.u())
        .isCloseTo(published.number("expandedNm"), within(1.0));
  }

  private static double of(Map<String, Double> deviations, String name) {
    return deviations.getOrDefault(name, 0.0);
  }

  /** With every component as it should be the host's formulas give the resistance that is there. */
  @Test
  void theEstimatorsHaveNoBiasThatCounts() {
    for (Rung rung : Rung.ladder(board)) {
      double error = rung.budget().value() - rung.ohms();
      assertThat(Math.abs(error))
          .as(rung.range() + " " + rung.ohms())
          .isLessThan(0.1 * rung.budget().u());
    }
  }

  /** What is reversed away or subtracted: thermal EMF, constant leakage, offsets. */
  @Test
  void reversalAndSubtractionTakeAwayWhatIsConstant() {
    Rung short0 = Rung.of(board, 0);
    for (String name :
        List.of("thermal EMF of a", "tap leakage of a", "converter offset at " + short0.gain())) {
      ErrorBudget.Line line = line(short0, name);
      assertThat(line.u()).as(name).isLessThan(1e-3 * line.uAlone());
      assertThat(line.uAlone()).as(name).isGreaterThan(10 * short0.budget().u());
    }
    ErrorBudget.Line open =
        line(Rung.of(board, 50e6), "open switches, what they leak without excitation");
    assertThat(open.u()).isLessThan(1e-3 * open.uAlone());
    // Sixteen switches of 0.3 nA rectangular: 0.69 nA of the 40 nA that 2 V drive through 50 Mohm.
    assertThat(open.uAlone() / 50e6).isCloseTo(0.69 / 40, within(0.001));
  }

  private static ErrorBudget.Line line(Rung rung, String name) {
    return rung.budget().lines().stream()
        .filter(line -> line.input().name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  /**
   * The diodes' figure in the board's file against the model that the decks take for them: is
   * (exp(v/(n V_T)) − 1) at 27 °C, where ngspice has V_T = 25.86 mV.
   */
  @Test
  void theDiodesAreThoseOfTheDecks() {
    String library = bellwire.hardware.PartsList.library("parts.lib");
    var model = java.util.regex.Pattern.compile("dlowleak d\\(is=(\\S+) n=(\\S+)").matcher(library);
    assertThat(model.find()).isTrue();
    double scale = Double.parseDouble(model.group(2)) * 0.02586;
    double amps = Double.parseDouble(model.group(1)) * Math.expm1(0.35 / scale);
    assertThat(board.nominal("feedback-diode-volts")).isCloseTo(scale, within(1e-4));
    assertThat(board.nominal("feedback-diode-amps")).isCloseTo(amps, within(0.15 * amps));
  }

  @Test
  void theTableIsWhatTheBoardsValuesGive() throws Exception {
    NotesTable table = new NotesTable(Path.of("../../hardware-notes"), "budget");
    List<ConductorBudget> conductors =
        new ArrayList<>(ConductorBudget.all(board, CodedPlug.nominal()));
    String text = BudgetTable.text(Rung.ladder(board), conductors);
    if (Boolean.getBoolean("bellwire.write")) {
      table.write(text);
    }
    assertThat(table.read()).isEqualTo(text);
    String notes = Files.readString(Path.of("../../hardware-notes/README.md"));
    assertThat(notes).contains(BudgetTable.least(Rung.ladder(board)));
    assertThat(notes).contains(String.join("\n", BudgetTable.summary(Rung.ladder(board))));
  }
}
