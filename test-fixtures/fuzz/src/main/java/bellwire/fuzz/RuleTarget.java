package bellwire.fuzz;

import bellwire.analysis.rules.BadExpression;
import bellwire.analysis.rules.Expression;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** A rule's condition; what is taken reads back as the same. */
final class RuleTarget implements Target {
  private static final List<String> KNOWN =
      List.of("W1", "Y1", "G", "W1 released", "step heat", "and", "not so", "a\u00a0b", "(x)");

  @Override
  public void take(byte[] input) {
    String text = new String(input, StandardCharsets.UTF_8);
    try {
      Expression once = Expression.parse(text, KNOWN);
      Expression twice = Expression.parse(once.toString(), KNOWN);
      Finding.unless(once.equals(twice), "not the same again: %s", once);
    } catch (BadExpression e) {
      Finding.unless(
          e.position() >= 0 && e.position() <= text.length() && !e.remedy().isBlank(),
          "refused without place or remedy: %s",
          e);
    }
  }
}
