package bellwire.analysis.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

final class ExpressionTest {
  private static final List<String> KNOWN =
      List.of("W1", "Y1", "G", "released W1", "mode heat", "step heat-1", "this and that");

  private static void refused(String text, int position, String problem, String remedy) {
    assertThatExceptionOfType(BadExpression.class)
        .as(text)
        .isThrownBy(() -> Expression.parse(text, KNOWN))
        .satisfies(
            e -> {
              assertThat(e.position()).isEqualTo(position);
              assertThat(e.problem()).isEqualTo(problem);
              assertThat(e.remedy()).isEqualTo(remedy);
            });
  }

  @Test
  void mistakesAreNamed() {
    refused("", 0, "nothing stands here", "write a fact, such as G");
    refused("W1 and Y2", 7, "there is no fact 'Y2'", "did you mean 'Y1'?");
    refused("release W1", 0, "there is no fact 'release W1'", "did you mean 'released W1'?");
    refused("w1", 0, "there is no fact 'w1'", "did you mean 'W1'?");
    refused("W1 Y1", 3, "two facts stand side by side", "did you mean 'W1 and Y1'?");
    refused("W1 and", 6, "a fact is missing after 'and'", "write one, such as G");
    refused("or W1", 0, "a fact is missing at the beginning", "write one, such as G");
    refused("(W1 or Y1", 0, "a parenthesis is not closed", "put ')' after it");
    refused("W1) or Y1", 2, "')' is one too many", "take it out, or open it");
    refused("W1 (Y1)", 3, "'(' is one too many", "join the two by 'and' or 'or'");
    refused("W1 or \"G", 6, "a quotation mark is not closed", "put another after it");
    refused(
        "elephant",
        0,
        "there is no fact 'elephant'",
        "there are: G, W1, Y1, mode heat, released W1, step heat-1, this and that");
    refused(
        "not ".repeat(60) + "W1",
        4 * 50,
        "too many parentheses and 'not'",
        "at most 50 within another");
  }

  @Test
  void orBindsLoosest() throws BadExpression {
    Expression e = Expression.parse("not W1 AND Y1 or G", KNOWN);
    assertThat(e).hasToString("(not W1 and Y1) or G");
    assertThat(Expression.parse("\"this and that\" and mode heat", KNOWN))
        .hasToString("\"this and that\" and mode heat");
  }

  @Test
  void unknownFactsLeaveOpenWhatTheyDecide() throws BadExpression {
    Expression e = Expression.parse("W1 and Y1 or G", KNOWN);
    assertThat(e.evaluate(f -> f.equals("G") ? Truth.UNKNOWN : Truth.TRUE)).isEqualTo(Truth.TRUE);
    assertThat(e.evaluate(f -> f.equals("G") ? Truth.UNKNOWN : Truth.FALSE))
        .isEqualTo(Truth.UNKNOWN);
    assertThat(e.evaluate(f -> f.equals("W1") ? Truth.UNKNOWN : Truth.FALSE))
        .isEqualTo(Truth.FALSE);
  }

  @Test
  void whatIsPrintedReadsBackAndBitsAgreeWithTruths() throws BadExpression {
    long seed = 11;
    System.out.println("seed=" + seed);
    Random random = new Random(seed);
    for (int n = 0; n < 2000; n++) {
      Expression e = draw(random, 4);
      Expression back = Expression.parse(e.toString(), KNOWN);
      assertThat(back).hasToString(e.toString());
      Letters letters = new Letters(new Rule("", "", new Pattern.Always(e), new Scope.Globally()));
      long values = random.nextLong();
      long sparse = random.nextLong() & ~values;
      long unknown = sparse & (1L << letters.facts().size()) - 1;
      Truth truth =
          back.evaluate(
              f -> {
                int bit = letters.facts().indexOf(f);
                return (unknown >> bit & 1) != 0
                    ? Truth.UNKNOWN
                    : Truth.of((values >> bit & 1) != 0);
              });
      int possible = letters.possible(values, unknown);
      int with = 1 << (Letters.SCOPE | Letters.FIRST);
      int without = 1 << Letters.SCOPE;
      assertThat(possible & ~(with | without)).isZero();
      assertThat(possible).isNotZero();
      if (truth != Truth.UNKNOWN) {
        assertThat(possible).as(e.toString()).isEqualTo(truth == Truth.TRUE ? with : without);
      }
    }
  }

  private static Expression draw(Random random, int depth) {
    int kind = depth == 0 ? 0 : random.nextInt(4);
    if (kind == 0) {
      return new Expression.Fact(KNOWN.get(random.nextInt(KNOWN.size())));
    } else if (kind == 1) {
      return new Expression.Not(draw(random, depth - 1));
    }
    List<Expression> two = List.of(draw(random, depth - 1), draw(random, depth - 1));
    return kind == 2 ? new Expression.All(two) : new Expression.Any(two);
  }

  @Test
  void parenthesesAndQuotesEndAWord() throws BadExpression {
    assertThat(Expression.parse("(W1)and(Y1)or\"G\"", KNOWN)).hasToString("(W1 and Y1) or G");
    assertThat(Expression.parse("not(W1)", KNOWN)).hasToString("not W1");
    assertThat(Expression.parse("not\"mode heat\"or\tG", KNOWN)).hasToString("not mode heat or G");
  }
}
