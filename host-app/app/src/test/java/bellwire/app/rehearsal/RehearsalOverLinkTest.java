package bellwire.app.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bellwire.app.link.Transport;
import bellwire.simbench.control.ControlSetup;
import bellwire.simbench.control.Defect;
import bellwire.simbench.control.Kind;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * The built-in rehearsals over the whole chain: drawn controls, chips, an agent whose clock drifts
 * and whose ticks come late, a line that loses frames, and the host. A few without a switch; {@code
 * -Dbellwire.linked=1} rehearses each kind healthy and with each of its defects, so often, and
 * prints the matrix.
 */
final class RehearsalOverLinkTest {
  private static final long SEED = Long.getLong("bellwire.seed", 6100);
  private static final int EACH = Integer.getInteger("bellwire.linked", 0);
  private static final double MOST_DRIFT_PPM = 100;

  /** One tick in a thousand is late by up to ten times this. */
  private static final double MOST_JITTER_MILLIS = 0.8;

  private static final double MOST_LOST_SHARE = 0.02;

  /**
   * A control on the bench.
   *
   * @param defect what is wrong with it; null for nothing
   */
  private record Case(Kind kind, @Nullable Defect defect, long seed) {

    static Case of(Kind kind, @Nullable Defect defect, int number) {
      int row = defect == null ? 0 : 1 + defect.ordinal();
      return new Case(kind, defect, SEED + 100_000L * row + 1000L * kind.ordinal() + number);
    }

    ControlSetup setup() {
      SplittableRandom random = new SplittableRandom(seed);
      ControlSetup setup = ControlSetup.draw(kind, random);
      return defect == null ? setup : setup.with(defect, random);
    }

    Bench bench() throws Exception {
      SplittableRandom random = new SplittableRandom(seed + 7);
      return BenchFile.parse(
              "bench.yaml",
              String.format(
                  Locale.ROOT,
                  "bellwire-bench: 1%nseed: %d%nboard: {clock-drift: %.1f ppm, tick-jitter: %.3f ms}%n"
                      + "control: {kind: %s}%n",
                  seed,
                  random.nextDouble(-MOST_DRIFT_PPM, MOST_DRIFT_PPM),
                  random.nextDouble(MOST_JITTER_MILLIS),
                  kind.name().toLowerCase(Locale.ROOT).replace('_', '-')))
          .with(Bench.Control.of(setup()));
    }

    RehearsalOutcome rehearse() throws Exception {
      SplittableRandom random = new SplittableRandom(seed + 11);
      double share = random.nextDouble(MOST_LOST_SHARE);
      return new SimulatedRehearsal(RehearsalMatrixTest.builtIn(kind), bench())
          .through(line -> new CompressorRestTest.LossyLine(line, random, share))
          .run();
    }

    /** The findings that there should be. */
    List<String> expected() {
      return defect == null ? List.of() : List.of(RehearsalMatrixTest.name(defect));
    }

    @Override
    public String toString() {
      return (defect == null ? "healthy" : defect) + " " + kind + " seed=" + seed;
    }
  }

  /** Rehearses; what is not as it should be is added to the wrong ones. */
  private static boolean right(Case of, List<String> wrong) throws Exception {
    long start = System.nanoTime();
    RehearsalOutcome outcome = of.rehearse();
    List<String> names = outcome.findings().stream().map(Findings.Finding::name).toList();
    boolean right = of.defect() == null ? outcome.good() : names.containsAll(of.expected());
    System.out.printf(
        "%s: %s%s, %.0f s in %.1f s, lost frames %d, gaps %d, latest tick %d us%n",
        of,
        names,
        right ? "" : " WRONG",
        (outcome.endMicros() - outcome.startMicros()) * 1e-6,
        (System.nanoTime() - start) * 1e-9,
        outcome.sampling().lostFrames(),
        outcome.sampling().gaps(),
        outcome.sampling().worstLateMicros());
    if (!right || EACH > 0) {
      compare(of, outcome);
    }
    if (!right) {
      wrong.add(of + ": " + RehearsalMatrixTest.words(outcome));
    }
    return right;
  }

  /** Prints where the same control is judged otherwise from its contacts themselves. */
  private static void compare(Case of, RehearsalOutcome outcome) throws Exception {
    String whole = RehearsalMatrixTest.verdicts(outcome);
    String direct =
        RehearsalMatrixTest.verdicts(
            RehearsalMatrixTest.rehearse(of.kind(), of.setup(), of.seed()));
    if (!whole.equals(direct)) {
      System.out.println("  over the link:  " + whole);
      System.out.println("  at the contacts: " + direct);
    }
  }

  @Test
  void controlsAreJudgedRightOverTheWholeChain() throws Exception {
    List<String> wrong = new ArrayList<>();
    if (EACH > 0) {
      matrix(wrong);
    } else {
      few(wrong);
    }
    assertEquals(List.of(), wrong);
  }

  /** The cable was pulled, or the agent lost its power: the link is silent for good. */
  @Test
  void aLinkThatStaysAwayEndsTheRehearsal() throws Exception {
    Rehearsal rehearsal = RehearsalFile.builtIn("heat-only", Map.of());
    RehearsalOutcome outcome =
        assertTimeoutPreemptively(
            Duration.ofSeconds(30),
            () ->
                new SimulatedRehearsal(rehearsal, Case.of(Kind.HEAT_ONLY, null, 0).bench())
                    .through(line -> new SilentLine(line, 40_000_000))
                    .run());
    assertTrue(outcome.trouble().contains("fell silent"), outcome.trouble());
  }

  private static void few(List<String> wrong) throws Exception {
    for (Case each :
        List.of(
            Case.of(Kind.FURNACE_COOLING, null, 0),
            Case.of(Kind.BOILER_DRY, null, 0),
            Case.of(Kind.TWO_SUPPLIES, null, 0),
            Case.of(Kind.ELECTRIC_HEAT, Defect.FAN_NOT_CALLED, 0),
            Case.of(Kind.HEAT_ONLY, Defect.CHATTER, 0),
            Case.of(Kind.ZONE_PANEL, Defect.SHORT_REST_AFTER_POWER_LOSS, 0),
            Case.of(Kind.BOILER_DRY, Defect.LATE_DROP_OUT, 0))) {
      right(each, wrong);
    }
  }

  private static void matrix(List<String> wrong) throws Exception {
    StringBuilder matrix = new StringBuilder(String.format("%-28s", ""));
    for (Kind kind : Kind.values()) {
      matrix.append(String.format(" %4.4s", kind.name().replaceAll("(.).*?_(.).*", "$1$2")));
    }
    List<@Nullable Defect> rows = new ArrayList<>();
    rows.add(null);
    rows.addAll(List.of(Defect.values()));
    for (Defect defect : rows) {
      matrix.append(
          String.format("%n%-28s", defect == null ? "healthy" : RehearsalMatrixTest.name(defect)));
      for (Kind kind : Kind.values()) {
        matrix.append(String.format(" %4s", cell(kind, defect, wrong)));
      }
    }
    System.out.println(matrix);
  }

  private static String cell(Kind kind, @Nullable Defect defect, List<String> wrong)
      throws Exception {
    if (defect != null && !defect.canShow(kind)) {
      return "-";
    }
    int found = 0;
    for (int i = 0; i < EACH; i++) {
      found += right(Case.of(kind, defect, i), wrong) ? 1 : 0;
    }
    return found + "/" + EACH;
  }

  /** A line on which nothing comes any more from some time on. */
  private record SilentLine(Transport line, long fromMicros) implements Transport {
    @Override
    public int read(byte[] into) {
      int count = line.read(into);
      return line.nowMicros() < fromMicros ? count : 0;
    }

    @Override
    public void write(byte[] bytes, int off, int len) {
      if (line.nowMicros() < fromMicros) {
        line.write(bytes, off, len);
      }
    }

    @Override
    public void await(long micros) {
      line.await(micros);
    }

    @Override
    public long nowMicros() {
      return line.nowMicros();
    }

    @Override
    public String name() {
      return line.name();
    }

    @Override
    public void close() {
      line.close();
    }
  }
}
