package bellwire.app.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bellwire.yaml.FileException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Rehearsal files: the built-in ones, the guide's example, and files with errors. */
final class RehearsalFileTest {
  private static final Path GUIDE = Path.of("../../docs/rehearsal-files.md");

  static Stream<String> builtIn() {
    return RehearsalFile.BUILT_IN.stream();
  }

  @ParameterizedTest
  @MethodSource("builtIn")
  void builtInOnesAreReadAndNameTheirAssumptionsAndTheBasisOfEachTime(String name)
      throws Exception {
    Rehearsal rehearsal = RehearsalFile.builtIn(name, Map.of());
    assertFalse(rehearsal.assumes().isEmpty());
    for (TimeBound time : rehearsal.times().values()) {
      assertFalse(time.basis().isBlank(), time.name());
    }
    List<String> covered = rehearsal.functions().stream().flatMap(f -> f.steps().stream()).toList();
    for (Step step : rehearsal.steps()) {
      assertTrue(
          covered.contains(step.name()) || List.of("begin", "cool-end").contains(step.name()),
          "in no function: " + step.name());
    }
  }

  @Test
  void theExampleOfTheDocumentIsRead() throws Exception {
    Rehearsal rehearsal = RehearsalFile.parse("example.yaml", example(), Map.of());
    assertEquals("HUM", rehearsal.terminals().get(1).name());
    assertEquals(60_000_000, rehearsal.micros("slow"));
  }

  /** Also in a file of the user's own that says nothing of it. */
  @Test
  void aStepInWhichACompressorMayRunSaysSo() throws Exception {
    for (String name : RehearsalFile.BUILT_IN) {
      String text = RehearsalFile.text(name).replaceAll("runs-compressor: true", "");
      Rehearsal rehearsal = RehearsalFile.parse(name, text, Map.of());
      for (Step step : rehearsal.steps()) {
        boolean may =
            rehearsal.terminals().stream()
                .filter(t -> t.role() == Role.COMPRESSOR || t.role() == Role.SECOND_COMPRESSOR)
                .anyMatch(t -> step.asks().containsKey(t.name()) || step.free().contains(t.name()));
        assertEquals(may, step.runsCompressor(), name + " " + step.name());
      }
    }
  }

  private static String example() throws IOException {
    String text = Files.readString(GUIDE);
    int begin = text.indexOf("```yaml\n") + 8;
    return text.substring(begin, text.indexOf("```", begin));
  }

  @Test
  void aTimeSetByTheUserReplacesTheFiles() throws Exception {
    Rehearsal rehearsal = RehearsalFile.builtIn("two-stage", Map.of("rest", "4 min"));
    assertEquals(240_000_000, rehearsal.micros("rest"));
    assertEquals("set by the user", rehearsal.times().get("rest").basis());
    FileException e =
        assertThrows(
            FileException.class,
            () -> RehearsalFile.builtIn("two-stage", Map.of("reest", "4 min")));
    assertTrue(e.getMessage().contains("no such time: reest"), e.getMessage());
  }

  static Stream<Arguments> errors() {
    return Stream.of(
        Arguments.of("asks: {W1: call}", "asks: {W9: call}", 21, "unknown terminal: W9"),
        Arguments.of("asks: {W1: call}", "asks: {W1: cal}", 21, "unknown time: cal"),
        Arguments.of("free: [HUM]", "free: [HUM, W1]", 22, "asked for and free at once: W1"),
        Arguments.of("lasts: HUM and released W1", "lasts: HUM and released W2", 31, "W2"),
        Arguments.of(
            "lasts: HUM and released W1",
            "lasts: HUM and (released W1",
            31,
            "a parenthesis is not closed"),
        Arguments.of("at-most: slow", "at-most: 2 s\n    at-least: 3 s", 33, "the wrong way round"),
        Arguments.of("at-most: slow", "within: slow", 31, "no bound"),
        Arguments.of("at-most: slow", "at-most: 5", 32, "unit missing"),
        Arguments.of("at-most: slow", "at-most: -5 s", 32, "out of bounds"),
        Arguments.of("role: heat}", "role: heating}", 7, "no such choice"),
        Arguments.of("steps: [heat, end]", "steps: [heat, finish]", 34, "no such step: finish"),
        Arguments.of("feed: ac", "feed: battery", 3, "no such choice"),
        Arguments.of("do: {mode: heat, set: 1}", "do: {mood: heat}", 20, "did you mean 'mode'"),
        Arguments.of("stay: 1 min", "stay: 1 min\n    at-most: 3 s", 24, "before its slowest"));
  }

  @ParameterizedTest
  @MethodSource("errors")
  void anErrorIsToldWithItsLine(String right, String wrong, int line, String words)
      throws Exception {
    String text = example();
    assertTrue(text.contains(right), right);
    FileException e =
        assertThrows(
            FileException.class,
            () -> RehearsalFile.parse("mine.yaml", text.replace(right, wrong), Map.of()));
    assertTrue(e.getMessage().contains(words), e.getMessage());
    assertEquals(line, e.line(), e.getMessage());
  }

  @Test
  void rulesThatNoControlCanKeepAreRefused() throws Exception {
    String text =
        example()
            .replace(
                "rules:\n",
                "rules:\n"
                    + "  - name: always-heat\n    says: Heat is called.\n    always: W1\n"
                    + "  - name: never-heat\n    says: Heat is not called.\n    never: W1\n");
    FileException e =
        assertThrows(FileException.class, () -> RehearsalFile.parse("mine.yaml", text, Map.of()));
    assertTrue(e.getMessage().contains("no control can keep this"), e.getMessage());
    assertTrue(e.getMessage().contains("always-heat"), e.getMessage());
    assertTrue(e.getMessage().contains("never-heat"), e.getMessage());
  }

  @Test
  void aRuleThatForbidsWhatAStepAsksIsRefused() throws Exception {
    String text =
        example()
            .replace(
                "rules:\n",
                "rules:\n  - name: no-heat\n    says: Heat is never called.\n    never: W1\n");
    FileException e =
        assertThrows(FileException.class, () -> RehearsalFile.parse("mine.yaml", text, Map.of()));
    assertTrue(e.getMessage().contains("no-heat"), e.getMessage());
    assertTrue(e.getMessage().contains("what step heat asks"), e.getMessage());
  }
}
