package bellwire.app.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bellwire.analysis.logic.Verdict;
import bellwire.analysis.rules.Ruling;
import bellwire.simbench.control.ControlSetup;
import bellwire.simbench.control.Defect;
import bellwire.simbench.control.Kind;
import bellwire.simbench.control.SimulatedControl;
import bellwire.yaml.FileException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Every built-in rehearsal on healthy controls drawn at random, and on every defect that its kind
 * of control can have; prints the matrix. {@code -Dbellwire.setups=50} draws 500 healthy ones.
 */
final class RehearsalMatrixTest {
  private static final long SEED = Long.getLong("bellwire.seed", 4001);
  private static final int HEALTHY = Integer.getInteger("bellwire.setups", 10);
  private static final int EACH = Integer.getInteger("bellwire.defective", 2);
  private static final double CLOCK_PPM = 100;

  @Test
  void healthyControlsKeepEverything() throws Exception {
    List<String> wrong = new ArrayList<>();
    int runs = 0;
    for (Kind kind : Kind.values()) {
      for (int i = 0; i < HEALTHY; i++) {
        long seed = SEED + 1000L * kind.ordinal() + i;
        RehearsalOutcome outcome =
            rehearse(kind, ControlSetup.draw(kind, new SplittableRandom(seed)), seed);
        runs++;
        if (!outcome.good()) {
          wrong.add(kind + " seed=" + seed + ": " + words(outcome));
        }
      }
    }
    System.out.println("healthy set-ups " + runs + ", not kept " + wrong.size() + ", seed=" + SEED);
    assertEquals(List.of(), wrong);
  }

  @Test
  void everyDefectIsFoundByName() throws Exception {
    List<String> missed = new ArrayList<>();
    StringBuilder matrix = new StringBuilder();
    matrix.append(String.format("%-28s", ""));
    for (Kind kind : Kind.values()) {
      matrix.append(String.format(" %4.4s", kind.name().replaceAll("(.).*?_(.).*", "$1$2")));
    }
    for (Defect defect : Defect.values()) {
      matrix.append(String.format("%n%-28s", name(defect)));
      for (Kind kind : Kind.values()) {
        matrix.append(String.format(" %4s", cell(defect, kind, missed)));
      }
    }
    System.out.println(matrix);
    assertEquals(List.of(), missed);
  }

  private static String cell(Defect defect, Kind kind, List<String> missed) throws Exception {
    if (!defect.canShow(kind)) {
      return "-";
    }
    int found = 0;
    for (int i = 0; i < EACH; i++) {
      long seed = SEED + 100_000L * defect.ordinal() + 1000L * kind.ordinal() + i;
      SplittableRandom random = new SplittableRandom(seed);
      ControlSetup setup = ControlSetup.draw(kind, random).with(defect, random);
      RehearsalOutcome outcome = rehearse(kind, setup, seed);
      List<String> names = outcome.findings().stream().map(Findings.Finding::name).toList();
      if (names.contains(name(defect))) {
        found++;
      }
      if (!names.equals(List.of(name(defect)))) {
        String told = defect + " in " + kind + " seed=" + seed + ": " + words(outcome);
        System.out.println(told.substring(0, Math.min(300, told.length())));
        if (!names.contains(name(defect))) {
          missed.add(told);
        }
      }
    }
    return found + "/" + EACH;
  }

  static String name(Defect defect) {
    return defect.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The findings, and every verdict that is not kept. */
  static String verdicts(RehearsalOutcome outcome) {
    StringBuilder words = new StringBuilder();
    outcome.findings().forEach(f -> words.append(f.name()).append("; "));
    for (Ruling ruling : outcome.rulings()) {
      if (ruling.verdict() != Verdict.KEPT) {
        words.append(ruling.verdict()).append(' ').append(ruling.rule().name()).append("; ");
      }
    }
    return words.toString();
  }

  static String words(RehearsalOutcome outcome) {
    StringBuilder words = new StringBuilder();
    outcome.findings().forEach(f -> words.append(f.name()).append("; "));
    for (Ruling ruling : outcome.rulings()) {
      if (ruling.verdict() != Verdict.KEPT) {
        words.append(ruling.verdict()).append(' ').append(ruling.rule().name()).append(' ');
        words.append(ruling.telling()).append("; ");
      }
    }
    outcome.rehearsal().functions().stream()
        .filter(f -> outcome.coverage(f) != RehearsalOutcome.Coverage.COVERED)
        .forEach(f -> words.append(f.name()).append(' ').append(outcome.coverage(f)).append("; "));
    words.append("not at rest ").append(outcome.notAtRest().size());
    return words.toString();
  }

  static Rehearsal builtIn(Kind kind) throws FileException {
    String name = kind.name().toLowerCase(Locale.ROOT).replace('_', '-');
    assertTrue(RehearsalFile.BUILT_IN.contains(name));
    return RehearsalFile.builtIn(name, Map.of());
  }

  static RehearsalOutcome rehearse(Kind kind, ControlSetup setup, long seed) throws Exception {
    Rehearsal rehearsal = builtIn(kind);
    List<String> leads = rehearsal.terminals().stream().map(Terminal::name).toList();
    SimulatedControl control = new SimulatedControl(setup, leads, seed);
    assertEquals(leads, control.terminals());
    long width = rehearsal.feed() == Rehearsal.Feed.DRY ? 2_000 : 11_000;
    try (DirectCalls calls =
        new DirectCalls(control, rehearsal.terminals(), width, new SplittableRandom(seed))) {
      return new RehearsalRun(
              rehearsal, Set.of(), calls, new ScriptOperator(calls), CallRecord.NONE, CLOCK_PPM)
          .run();
    }
  }
}
