package bellwire.app.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.loop.LandingPlan;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** A plan written into a landing file is the plan that is read from it. */
class PlannedFileTest {
  static Stream<String> examples() {
    return Described.EXAMPLES.stream();
  }

  @ParameterizedTest
  @MethodSource("examples")
  void whatIsWrittenIsRead(String name) throws Exception {
    LandingPlan plan = Objects.requireNonNull(Described.example(name).asPlanned());
    String written = PlannedFile.text(Described.text(name), plan);
    assertThat(LandingFile.parse("written.yaml", written, Path.of("")).asPlanned()).isEqualTo(plan);
    assertThat(PlannedFile.text(written, plan)).isEqualTo(written);
  }

  @Test
  void allButThePlanStaysAsItWas() throws Exception {
    String before =
        Described.text("example-before-power") + "# my own note\ntitle2: stays to be refused\n";
    LandingPlan plan =
        new LandingPlan(
            List.of(new LandingPlan.Landed("red", "RH", null)),
            java.util.Set.of(),
            java.util.Map.of());
    String after = PlannedFile.text(before, plan);
    assertThat(after).contains("# A day's work", "as-found:", "title2: stays to be refused");
    assertThat(after).contains("    red: [RH, free]\n").doesNotContain("white: [W, Y1]");
    assertThat(after.lines().filter(line -> line.startsWith("as-planned"))).hasSize(1);
  }

  @Test
  void aCommentBetweenThePlanAndTheNextKeyIsNotLostAndAQuotedKeyIsNotWrittenTwice()
      throws Exception {
    String before =
        Described.text("example-boiler")
            .replace("as-planned:", "'as-planned' :")
            .replace("cable:", "# ask the owner for the key\ncable:");
    String cable = before.substring(before.indexOf("# ask"), before.indexOf("'as-planned'"));
    String turned = before.replace(cable, "") + cable;
    LandingPlan plan = Objects.requireNonNull(Described.example("example-boiler").asPlanned());
    String after = PlannedFile.text(turned, plan);
    assertThat(after).contains("# ask the owner for the key\ncable:");
    assertThat(LandingFile.parse("turned.yaml", after, Path.of("")).asPlanned()).isEqualTo(plan);
  }

  @Test
  void aTerminalsNameThatYamlWouldReadOtherwiseIsQuoted() {
    LandingPlan plan =
        new LandingPlan(
            List.of(new LandingPlan.Landed("red", "R, fused", "R")),
            java.util.Set.of(),
            java.util.Map.of());
    assertThat(PlannedFile.text("", plan)).contains("red: ['R, fused', R]");
  }
}
