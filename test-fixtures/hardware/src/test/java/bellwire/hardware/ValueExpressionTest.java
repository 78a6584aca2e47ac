package bellwire.hardware;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;

class ValueExpressionTest {
  private static final ToDoubleFunction<String> NAMED = name -> name.equals("a-ohms") ? 100 : 7;

  @Test
  void aNumberANameOrTwoWithAnOperator() {
    assertThat(new ValueExpression("1.5e-9").of(NAMED)).isEqualTo(1.5e-9);
    assertThat(new ValueExpression("a-ohms").of(NAMED)).isEqualTo(100);
    assertThat(new ValueExpression("a-ohms / 2").of(NAMED)).isEqualTo(50);
    assertThat(new ValueExpression("a-ohms - b-ohms").of(NAMED)).isEqualTo(93);
    assertThat(new ValueExpression("2 * b-ohms").of(NAMED)).isEqualTo(14);
    assertThat(new ValueExpression("a-ohms + 1").of(NAMED)).isEqualTo(101);
  }

  @Test
  void itsNamesAreNotItsNumbers() {
    assertThat(new ValueExpression("a-ohms / 2").names()).containsExactly("a-ohms");
    assertThat(new ValueExpression("10").names()).isEmpty();
  }

  @Test
  void anythingElseIsRefused() {
    assertThatThrownBy(() -> new ValueExpression("a-ohms /2"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("value=a-ohms /2");
  }
}
