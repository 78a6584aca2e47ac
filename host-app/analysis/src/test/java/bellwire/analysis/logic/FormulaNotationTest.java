package bellwire.analysis.logic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Printing and reading formulas. */
class FormulaNotationTest {

  private static final Formula Y1 = Formula.atom("Y1");
  private static final Formula FAN = Formula.atom("G");

  @Test
  void printsTheUsualNotation() {
    Formula formula =
        Formula.always(Formula.implies(Y1, Formula.eventually(Bounds.within(2_000_000), FAN)));
    assertThat(formula).hasToString("G(Y1 -> F[0,2 s] \"G\")");
    assertThat(Formula.weakUntil(Formula.not(Y1), Formula.and(Y1, FAN)))
        .hasToString("!Y1 W (Y1 & \"G\")");
    assertThat(Formula.historically(new Bounds(1500, 300_000_000), Formula.atom("released W1")))
        .hasToString("H[1500 us,300 s] \"released W1\"");
    assertThat(Formula.once(new Bounds(500_000, Bounds.UNBOUNDED), Formula.rise(Y1)))
        .hasToString("O[500 ms,inf) rise(Y1)");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      quoteCharacter = '`',
      value = {
        "always (Y1 implies eventually[0, 2 s] \"G\"); G(Y1 -> F[0,2 s] \"G\")",
        "a and b or c and not d; a & b | c & !d",
        "a -> b -> c; a -> b -> c",
        "(a -> b) -> c; (a -> b) -> c",
        "a until[1, 2.5 s] b and c; a U[1 s,2.5 s] b & c",
        "a unless b iff a since b; a W b <-> a S b",
        "not x >= -3.5; !(x >= -3.5)",
        "once[5 min, 1 h] fall(a xor b); O[300 s,1 h] fall(a xor b)",
        "H[0,0] true; H[0,0] true",
      })
  void readsWordsAndLetters(String text, String printed) throws BadFormula {
    assertThat(FormulaParser.parse(text)).hasToString(printed.strip());
  }

  @Test
  void readsBackWhatItPrints() throws BadFormula {
    long seed = 7;
    System.out.println("printed and read formulas=20000 seed=" + seed);
    SplittableRandom random = new SplittableRandom(seed);
    RandomLogic logic = new RandomLogic(random);
    for (int i = 0; i < 20_000; i++) {
      Formula formula = logic.formula(1 + random.nextInt(6));
      assertThat(FormulaParser.parse(formula.toString())).isEqualTo(formula);
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      quoteCharacter = '`',
      value = {
        "a &; 4; expected; signal",
        "always; 1; nothing follows; \"always\"",
        "a -> G; 6; nothing follows; \"G\"",
        "(a | b; 1; not closed; )",
        "a b; 3; complete; join",
        "F[2,1 s] a; 2; wrong way round; nearer",
        "F[0,2] a; 5; no unit; ms",
        "F[-1 s,2 s] a; 3; negative; past",
        "F[0,0.1 us] a; 5; whole number; round",
        "F[0,90000000 h] a; 5; 31 years; inf",
        "F[0 s a; 7; comma; [0,2 s]",
        "F[0,2 s a; 2; not closed; [0,2 s]",
        "x >= y; 6; no number; 3.5",
        "a U b U c; 7; in a row; parentheses",
        "rise a; 6; no (; rise(",
        "\"a; 1; not closed; second",
        "a # b; 3; no meaning; quotation",
        "\" \"; 1; empty; name",
        "(); 2; expected; signal",
      })
  void saysWhereAndWhatToDo(String text, int position, String problem, String remedy) {
    BadFormula bad = catchThrowableOfType(BadFormula.class, () -> FormulaParser.parse(text));
    assertThat(bad.position()).as(bad.getMessage()).isEqualTo(position);
    assertThat(bad.problem()).contains(problem.strip());
    assertThat(bad.remedy()).contains(remedy.strip());
    assertThat(bad).hasMessageContaining("at character " + position);
  }

  @Test
  void refusesWhatIsTooDeepOrTooLong() {
    String deep = "!".repeat(900) + "a";
    assertThatThrownBy(() -> FormulaParser.parse(deep)).hasMessageContaining("nested more");
    String implied = "a -> ".repeat(400) + "a";
    assertThatThrownBy(() -> FormulaParser.parse(implied)).hasMessageContaining("nested more");
    String open = "(".repeat(900);
    assertThatThrownBy(() -> FormulaParser.parse(open)).isInstanceOf(BadFormula.class);
    String lengthy = "a & ".repeat(6000) + "a";
    assertThatThrownBy(() -> FormulaParser.parse(lengthy)).hasMessageContaining("20000 characters");
  }

  /** A hundred deep: the whole, each negation, and what is negated. */
  @Test
  void aFormulaMayBeAHundredDeepAndAsWideAsItLikes() throws BadFormula {
    assertThat(FormulaParser.parse("!".repeat(98) + "a").signals()).containsExactly("a");
    assertThatThrownBy(() -> FormulaParser.parse("!".repeat(99) + "a"))
        .hasMessageContaining("nested more than 100 deep");
    assertThat(FormulaParser.parse("(!(a)) & ".repeat(130) + "a -> a").signals()).hasSize(1);
    assertThat(FormulaParser.parse("(a -> a) <-> ".repeat(130) + "a").signals()).hasSize(1);
    String longest = "a" + " ".repeat(19_998) + "b";
    assertThatThrownBy(() -> FormulaParser.parse(longest)).hasMessageContaining("complete");
    assertThatThrownBy(() -> FormulaParser.parse(longest + " "))
        .hasMessageContaining("20000 characters");
  }

  @Test
  void boundsAreOpenToInfinityOnly() throws BadFormula {
    Formula open = Formula.eventually(new Bounds(5_000_000, Bounds.UNBOUNDED), Y1);
    assertThat(FormulaParser.parse("F[5 s,inf) Y1")).isEqualTo(open);
    assertThat(FormulaParser.parse("F[5 s,inf] Y1")).isEqualTo(open);
    assertThatThrownBy(() -> FormulaParser.parse("F[0,5 s) Y1")).hasMessageContaining("not closed");
    // 31 years are 10^9 s.
    assertThat(FormulaParser.parse("F[0,1000000000 s] Y1"))
        .isEqualTo(Formula.eventually(Bounds.within(Bounds.LONGEST_MICROS), Y1));
    assertThatThrownBy(() -> FormulaParser.parse("F[0,1000000001 s] Y1"))
        .hasMessageContaining("longer than 31 years");
    assertThatThrownBy(() -> FormulaParser.parse("x > 1e400")).hasMessageContaining("no number");
    assertThat(FormulaParser.parse("x > 1e300"))
        .isEqualTo(Formula.threshold("x", Formula.Relation.ABOVE, 1e300));
  }

  @Test
  void theWidestFormulaIsReadPrintedAndFollowed() throws BadFormula {
    String text = "a & ".repeat(499) + "a";
    Formula formula = FormulaParser.parse(text);
    assertThat(formula).hasToString(text);
    LogicMonitor monitor = new LogicMonitor(Formula.always(formula), 0);
    monitor.change(0, 0, true);
    assertThat(monitor.finish(1, TraceEnd.CUT)).isEqualTo(Robustness.TRUE);
    assertThatThrownBy(() -> FormulaParser.parse(text + " & a & a"))
        .hasMessageContaining("more than 1000 words");
  }
}
