package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.landing.Made.Expected;
import bellwire.analysis.landing.Made.Figure;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every mistake of docs/landing-mistakes.md: its findings, the states they show in, and figures
 * reckoned by hand. {@code -Dbellwire.write=true} writes the document anew.
 */
class LandingMistakesTest {
  /** Half a digit of what is printed; an exact figure has no tolerance. */
  private static final double PRINTED = 0.05;

  static List<Made> all() {
    return Table.all();
  }

  @ParameterizedTest
  @MethodSource("all")
  void doesWhatTheTableSays(Made made) {
    List<Found> found = made.found();
    List<Found> faults = found.stream().filter(f -> !f.notice()).toList();
    assertThat(faults.stream().map(LandingMistakesTest::kindAndStates))
        .containsExactlyElementsOf(
            made.expected().stream().map(e -> e.kind() + " " + e.states()).toList());
    for (int i = 0; i < faults.size(); i++) {
      for (Figure figure : made.expected().get(i).figures()) {
        String words = faults.get(i).words();
        double tolerance =
            figure.relative() == 0 ? 0 : figure.relative() * figure.value() + PRINTED;
        assertThat(figure.in(words))
            .as("%s in '%s'", figure.pattern(), words)
            .isCloseTo(figure.value(), within(tolerance));
      }
    }
    for (Expected notice : made.notices()) {
      assertThat(found.stream().filter(Found::notice).map(LandingMistakesTest::kindAndStates))
          .contains(notice.kind() + " " + notice.states());
    }
  }

  private static String kindAndStates(Found found) {
    return found.kind() + " " + found.states();
  }

  @Test
  void noMistakeIsInTheTableTwice() {
    assertThat(all().stream().map(Made::toString)).doesNotHaveDuplicates();
    assertThat(all().stream().map(Made::made)).doesNotHaveDuplicates();
  }

  @Test
  void theDocumentSaysTheSame() throws IOException {
    Path document = docs().resolve("landing-mistakes.md");
    String now = Table.document(all());
    if (Boolean.getBoolean("bellwire.write")) {
      Files.writeString(document, now);
    }
    assertThat(Files.readString(document)).isEqualTo(now);
  }

  private static Path docs() {
    Path at = Path.of("").toAbsolutePath();
    while (!Files.exists(at.resolve("docs/README.md"))) {
      at = at.getParent();
    }
    return at.resolve("docs");
  }
}
