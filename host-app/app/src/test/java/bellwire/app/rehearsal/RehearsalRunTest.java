package bellwire.app.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bellwire.analysis.calls.Level;
import bellwire.analysis.logic.Verdict;
import bellwire.app.rehearsal.Attempt.Fate;
import bellwire.app.rehearsal.RehearsalOutcome.Coverage;
import bellwire.app.survey.InstrumentTrouble;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

/** Steps skipped, repeated and ended early; terminals with a rest state of their own. */
final class RehearsalRunTest {
  private static final String FILE =
      """
      bellwire-rehearsal: 1
      title: Heat with a dehumidifier that opens to call
      feed: dry
      terminals:
        W1: {role: heat}
        DEHUM: {role: dehumidify, active: open}
        O/B: {role: valve, rest: {heat: any, off: any, cool: open}}
      times:
        call: {is: 10 s, basis: "common practice, no source"}
        drop-out: {is: 3 s, basis: "common practice, no source"}
      steps:
        - {step: heat, say: Heat., do: {mode: heat}, asks: {W1: call}, stay: 5 s}
        - {step: dry, say: Dry., do: {mode: cool}, asks: {DEHUM: call}, stay: 5 s}
        - {step: end, say: End., do: {mode: off}, stay: 5 s}
      functions:
        - {function: heating, steps: [heat]}
        - {function: drying, steps: [dry]}
      """;

  private static final int W1 = 0;
  private static final int DEHUM = 1;
  private static final int VALVE = 2;

  private final ScriptedCalls calls = new ScriptedCalls(Level.OFF, Level.ON, Level.OFF);
  private final Deque<String> plan = new ArrayDeque<>();

  /** Does as the plan says: do, skip, again, end; then does everything. */
  private final class Planned implements Operator {
    private final Consumer<Step> hands;
    private String current = "";

    Planned(Consumer<Step> hands) {
      this.hands = hands;
    }

    @Override
    public Answer begin(Step step, int number, int of, Idle idle) throws InstrumentTrouble {
      current = plan.isEmpty() ? "do" : plan.remove();
      switch (current) {
        case "done and skipped":
          hands.accept(step);
          for (int i = 0; i < 50; i++) {
            idle.pass();
          }
          return new Answer(Choice.SKIP, "not tested, because I saw it");
        case "skip":
          return new Answer(Choice.SKIP, "not tested, because there is none");
        case "end":
          return new Answer(Choice.END, "enough");
        default:
          hands.accept(step);
          return new Answer(Choice.DO, current.equals("note") ? "call only" : "");
      }
    }

    @Override
    public Next look(Moment moment) {
      boolean over = moment.reached() || moment.late();
      return over && current.equals("again") ? Next.REPEAT : over ? Next.GO_ON : Next.WAIT;
    }

    @Override
    public String observe(Step step, Idle idle) {
      return "heard it";
    }
  }

  /** A control in order. */
  private void control(Step step) {
    control(step, step.name().equals("heat"));
  }

  private void control(Step step, boolean valve) {
    calls.set(W1, step.name().equals("heat") ? Level.ON : Level.OFF, 1_000_000);
    calls.set(DEHUM, step.name().equals("dry") ? Level.OFF : Level.ON, 1_000_000);
    calls.set(VALVE, valve ? Level.ON : Level.OFF, 1_000_000);
  }

  private RehearsalOutcome run() throws Exception {
    return run(this::control);
  }

  private RehearsalOutcome run(Consumer<Step> hands) throws Exception {
    return run(FILE, hands);
  }

  private RehearsalOutcome run(String file, Consumer<Step> hands) throws Exception {
    Rehearsal rehearsal = RehearsalFile.parse("dry.yaml", file, Map.of());
    return new RehearsalRun(rehearsal, Set.of(), calls, new Planned(hands), CallRecord.NONE, 100)
        .run();
  }

  @Test
  void anOutputThatOpensToCallAndAValveThatMayStayAreInOrder() throws Exception {
    RehearsalOutcome outcome = run();
    assertTrue(outcome.good(), outcome.rulings().toString());
    assertEquals("heard it", outcome.attempts().get(0).observed());
  }

  @Test
  void aValveThatStaysInTheWrongModeIsFound() throws Exception {
    RehearsalOutcome outcome = run(step -> control(step, true));
    assertEquals(
        List.of("welded-contact"),
        outcome.findings().stream().map(Findings.Finding::name).toList());
  }

  @Test
  void aDehumidifierThatDoesNotComeBackIsNotAtRest() throws Exception {
    RehearsalOutcome outcome =
        run(
            step -> {
              if (!step.name().equals("end")) {
                control(step);
              } else {
                calls.set(W1, Level.OFF, 1_000_000);
              }
            });
    assertEquals(List.of("DEHUM"), outcome.notAtRest().stream().map(Terminal::name).toList());
    assertFalse(outcome.good());
  }

  @Test
  void aStepSkippedIsNotCoveredWithItsReason() throws Exception {
    plan.addAll(List.of("do", "skip"));
    RehearsalOutcome outcome = run();
    assertEquals(Coverage.COVERED, outcome.coverage(outcome.rehearsal().functions().get(0)));
    assertEquals(Coverage.NOT_COVERED, outcome.coverage(outcome.rehearsal().functions().get(1)));
    assertEquals("not tested, because there is none", outcome.attempts().get(1).reason());
    assertTrue(outcome.rulings(Verdict.BROKEN).isEmpty());
    assertFalse(outcome.good());
  }

  @Test
  void aStepSkippedAfterItWasDoneBreaksNothing() throws Exception {
    plan.addAll(List.of("do", "done and skipped"));
    RehearsalOutcome outcome = run();
    assertEquals(Fate.SKIPPED, outcome.attempts().get(1).fate());
    assertTrue(outcome.rulings(Verdict.BROKEN).isEmpty(), outcome.findings().toString());
  }

  @Test
  void anEarlyEndListsWhatWasNotComeTo() throws Exception {
    plan.addAll(List.of("do", "end"));
    RehearsalOutcome outcome = run();
    assertEquals("enough", outcome.ended());
    assertEquals(
        List.of(Fate.DONE, Fate.NOT_COME_TO, Fate.NOT_COME_TO),
        outcome.attempts().stream().map(Attempt::fate).toList());
    assertEquals(List.of("W1"), outcome.notAtRest().stream().map(Terminal::name).toList());
  }

  @Test
  void anAttemptSetAsideDoesNotCount() throws Exception {
    plan.addAll(List.of("do", "again"));
    int[] tries = {0};
    RehearsalOutcome outcome =
        run(
            step -> {
              if (step.name().equals("dry") && tries[0]++ == 0) {
                calls.set(W1, Level.ON, 2_000_000); // the wrong button
              } else {
                control(step);
              }
            });
    assertEquals(
        List.of(Fate.DONE, Fate.SET_ASIDE, Fate.DONE, Fate.DONE, Fate.DONE),
        outcome.attempts().stream().map(Attempt::fate).toList());
    assertTrue(outcome.rulings(Verdict.BROKEN).isEmpty(), outcome.findings().toString());
  }

  @Test
  void whatWasSeenBeforeTheLinkWasLostIsJudged() throws Exception {
    RehearsalOutcome outcome =
        run(
            step -> {
              control(step);
              if (step.name().equals("dry")) {
                calls.failAfter(2_000_000);
              }
            });
    assertEquals("the link is gone", outcome.trouble());
    assertEquals(
        List.of(Fate.DONE, Fate.DONE, Fate.NOT_COME_TO),
        outcome.attempts().stream().map(Attempt::fate).toList());
    assertFalse(outcome.attempts().get(1).reached());
    assertEquals(Coverage.COVERED, outcome.coverage(outcome.rehearsal().functions().get(0)));
    assertTrue(outcome.rulings(Verdict.BROKEN).isEmpty());
    assertFalse(outcome.good());
  }

  @Test
  void whatChangesJustAfterTheLastStepIsNoneOfIts() throws Exception {
    int after = 0;
    for (long micros = 6_000_000; micros < 6_200_000; micros += 10_000) {
      long late = micros;
      ScriptedCalls own = new ScriptedCalls(Level.OFF, Level.ON, Level.OFF);
      Planned hands =
          new Planned(
              step -> {
                own.set(W1, step.name().equals("heat") ? Level.ON : Level.OFF, 1_000_000);
                own.set(DEHUM, step.name().equals("dry") ? Level.OFF : Level.ON, 1_000_000);
                if (step.name().equals("end")) {
                  own.set(W1, Level.ON, late);
                }
              });
      Rehearsal rehearsal = RehearsalFile.parse("dry.yaml", FILE, Map.of());
      RehearsalOutcome outcome =
          new RehearsalRun(rehearsal, Set.of(), own, hands, CallRecord.NONE, 100).run();
      long end = outcome.endMicros();
      if (outcome.changes().stream().anyMatch(c -> c.earliestMicros() > end)) {
        after++;
        assertTrue(outcome.rulings(Verdict.BROKEN).isEmpty(), outcome.findings().toString());
      }
    }
    assertTrue(after > 1);
  }

  /** A terminal that never rests: what was kept of it is judged, and nothing made up beyond. */
  @Test
  void nothingIsJudgedBeyondWhatWasKept() throws Exception {
    ScriptedCalls busy = new ScriptedCalls(Level.OFF, Level.ON, Level.OFF);
    Planned hands =
        new Planned(
            step -> {
              for (int i = 0; step.name().equals("heat") && i <= History.MOST; i++) {
                busy.set(VALVE, i % 2 == 0 ? Level.ON : Level.OFF, 100_000 + 60_000L * i);
              }
              long away = step.name().equals("heat") ? 60_000L * History.MOST : 0;
              busy.set(W1, step.name().equals("heat") ? Level.ON : Level.OFF, 1_000_000 + away);
              busy.set(DEHUM, step.name().equals("dry") ? Level.OFF : Level.ON, 1_000_000);
            });
    String file =
        FILE.replace("{is: 10 s", "{is: 13000 s").replace("DEHUM: call", "DEHUM: drop-out");
    Rehearsal rehearsal = RehearsalFile.parse("dry.yaml", file, Map.of());
    RehearsalOutcome outcome =
        new RehearsalRun(rehearsal, Set.of(), busy, hands, CallRecord.NONE, 100).run();
    assertTrue(outcome.droppedChanges() > 0);
    assertFalse(outcome.good());
    assertTrue(
        outcome.rulings(Verdict.BROKEN).stream().noneMatch(r -> r.rule().name().contains("DEHUM")),
        outcome.findings().toString());
  }

  /** The call came in time, but the link failed before it could be told. */
  @Test
  void whatWasNotYetToldWhenTheLinkWasLostBreaksNothing() throws Exception {
    calls.lag(200_000);
    RehearsalOutcome outcome =
        run(
            step -> {
              calls.set(W1, Level.ON, 9_900_000);
              calls.failAfter(10_050_000);
            });
    assertEquals("the link is gone", outcome.trouble());
    assertTrue(outcome.rulings(Verdict.BROKEN).isEmpty(), outcome.findings().toString());
  }

  @Test
  void aNoteOnHowAStepWasDoneStands() throws Exception {
    plan.add("note");
    assertEquals("call only", run().attempts().get(0).reason());
  }

  @Test
  void aControlThatTalksAllTheTimeIsRefused() {
    ScriptedCalls bus = new ScriptedCalls(Level.OFF, Level.UNKNOWN, Level.OFF);
    InstrumentTrouble e =
        assertThrows(
            InstrumentTrouble.class,
            () ->
                new RehearsalRun(
                        RehearsalFile.parse("dry.yaml", FILE, Map.of()),
                        Set.of(),
                        bus,
                        new Planned(step -> {}),
                        CallRecord.NONE,
                        100)
                    .run());
    assertTrue(e.getMessage().contains("X2 (DEHUM)"), e.getMessage());
    assertTrue(e.getMessage().contains("serial bus"), e.getMessage());
  }

  /**
   * No voltage is no open contact: found over the whole chain, where a closed one shows nothing.
   */
  @Test
  void aContactThatOnlyThePowerReleasesIsWelded() throws Exception {
    String file =
        FILE.replace(
            "  - {step: dry, say: Dry., do: {mode: cool}, asks: {DEHUM: call}, stay: 5 s}",
            """
              - {step: heat-off, say: Off., do: {mode: off}, stay: 5 s}
              - {step: power-off, say: Power off., do: {power: off}, stay: 5 s}
              - {step: power-on, say: Power on., do: {power: on}, stay: 5 s}
              - {step: dry, say: Dry., do: {mode: cool}, asks: {DEHUM: call}, stay: 5 s}"""
                .indent(2)
                .stripTrailing());
    RehearsalOutcome outcome =
        run(
            file,
            step -> {
              switch (step.name()) {
                case "heat", "power-on" -> calls.set(W1, Level.ON, 10_000);
                case "power-off" -> calls.set(W1, Level.OFF, 10_000);
                case "dry" -> calls.set(DEHUM, Level.OFF, 1_000_000);
                case "end" -> calls.set(DEHUM, Level.ON, 1_000_000);
                default -> {}
              }
            });
    assertEquals(
        List.of("welded-contact"),
        outcome.findings().stream().map(Findings.Finding::name).toList());
  }
}
