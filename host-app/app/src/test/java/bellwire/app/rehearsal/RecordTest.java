package bellwire.app.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bellwire.analysis.logic.Verdict;
import bellwire.analysis.rules.Ruling;
import bellwire.app.survey.InstrumentTrouble;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A rehearsal's record gives the same outcome as the rehearsal itself. */
final class RecordTest {
  private static final String BENCH =
      """
      bellwire-bench: 1
      seed: 5
      control:
        kind: boiler-dry
        contacts: relay
        bounce: 2 ms
        power: battery
        defects:
          - {defect: late-drop-out, terminal: W1, time: 12 s}
      """;

  @TempDir static Path directory;

  private static Path file;
  private static Rehearsal rehearsal;
  private static RehearsalOutcome live;

  @BeforeAll
  static void record() throws Exception {
    file = directory.resolve("record.jsonl.gz");
    rehearsal = RehearsalFile.builtIn("boiler-dry", Map.of());
    try (TraceWriter writer = TraceWriter.open(file, rehearsal, words -> {})) {
      live = new SimulatedRehearsal(rehearsal, BENCH).recordedBy(writer).run();
      assertTrue(writer.whole());
    }
  }

  private static RehearsalOutcome replay(Path from, Rehearsal with) throws Exception {
    try (Replay replay = Replay.open(from, with)) {
      return new RehearsalRun(
              with, Set.of(), replay, replay, CallRecord.NONE, SimulatedRehearsal.CLOCK_PPM)
          .run();
    }
  }

  @Test
  void theLateDropOutIsFoundOverTheWholeChain() {
    assertEquals(
        List.of("late-drop-out"), live.findings().stream().map(Findings.Finding::name).toList());
    assertTrue(live.bounces() > 0, "a relay bounces");
  }

  @Test
  void aReplayGivesTheSameRulingsAndChanges() throws Exception {
    RehearsalOutcome again = replay(file, rehearsal);
    assertEquals(live.changes(), again.changes());
    for (int i = 0; i < live.rulings().size(); i++) {
      assertEquals(live.rulings().get(i), again.rulings().get(i));
    }
    assertEquals(
        live.attempts().stream().map(Attempt::reached).toList(),
        again.attempts().stream().map(Attempt::reached).toList());
  }

  @Test
  void otherTimesJudgeTheSameTraceAnew() throws Exception {
    RehearsalOutcome mild =
        replay(file, RehearsalFile.builtIn("boiler-dry", Map.of("drop-out", "30 s")));
    assertEquals(List.of(), mild.findings());
  }

  @Test
  void aRecordThatWasCutOffCountsAsFarAsItGoes() throws Exception {
    List<String> lines = lines();
    Path cut = write("cut.jsonl", lines.subList(0, lines.size() / 3));
    Files.writeString(cut, Files.readString(cut) + "{\"at\":12");
    RehearsalOutcome outcome = replay(cut, rehearsal);
    assertFalse(outcome.good());
    assertEquals("the record ends here", outcome.ended());
  }

  @Test
  void aRecordDamagedInTheMiddleIsJudgedUpToThereAndItsLineTold() throws Exception {
    List<String> lines = new ArrayList<>(lines());
    lines.set(20, lines.get(20).substring(0, 30));
    Path damaged = write("damaged.jsonl", lines);
    RehearsalOutcome outcome = replay(damaged, rehearsal);
    assertTrue(outcome.trouble().contains(":21: the record is damaged"), outcome.trouble());
    assertFalse(outcome.good());
  }

  @Test
  void whatNoRehearsalWritesIsToldWithItsLine() throws Exception {
    List<String> whole = lines();
    int over = 0;
    while (!whole.get(over).contains("\"over\"")) {
      over++;
    }
    for (Map.Entry<Integer, String> wrong :
        Map.of(
                20,
                whole.get(20).replaceAll("\"delta\":\\[0,1,", "\"delta\":[0,2,"),
                over,
                whole.get(over).replace("GO_ON", "GO_AWAY"))
            .entrySet()) {
      List<String> lines = new ArrayList<>(whole);
      assertNotEquals(lines.set(wrong.getKey(), wrong.getValue()), wrong.getValue());
      RehearsalOutcome outcome = replay(write("wrong.jsonl", lines), rehearsal);
      String line = ":" + (wrong.getKey() + 1) + ": ";
      assertTrue(outcome.trouble().contains(line), outcome.trouble());
    }
  }

  @Test
  void lostFramesLeaveRulesUndecidedAndNeverWrong() throws Exception {
    List<String> kept = new ArrayList<>();
    int sampled = 0;
    for (String line : lines()) {
      // Three seconds of every ten are lost.
      if (!line.startsWith("{\"at\"") || sampled++ % 100 < 70) {
        kept.add(line);
      }
    }
    RehearsalOutcome outcome = replay(write("lossy.jsonl", kept), rehearsal);
    assertTrue(outcome.sampling().gaps() > 5, "gaps=" + outcome.sampling().gaps());
    Map<String, Verdict> whole = verdicts(live);
    for (Map.Entry<String, Verdict> lossy : verdicts(outcome).entrySet()) {
      if (lossy.getValue() != Verdict.UNDECIDED) {
        assertEquals(whole.get(lossy.getKey()), lossy.getValue(), lossy.getKey());
      }
    }
  }

  private static Map<String, Verdict> verdicts(RehearsalOutcome outcome) {
    return outcome.rulings().stream()
        .collect(java.util.stream.Collectors.toMap(r -> r.rule().name(), Ruling::verdict));
  }

  @Test
  void anotherRehearsalsRecordIsRefused() {
    InstrumentTrouble e =
        assertThrows(
            InstrumentTrouble.class,
            () -> replay(file, RehearsalFile.builtIn("two-stage", Map.of())));
    assertTrue(e.getMessage().contains("other terminals"), e.getMessage());
    assertTrue(e.getMessage().contains("boiler-dry"), e.getMessage());
  }

  @Test
  void aFullDiskEndsTheRecordAndNotTheRehearsal() throws Exception {
    Path full = Path.of("/dev/full");
    if (!Files.exists(full)) {
      return;
    }
    List<String> notes = new ArrayList<>();
    try (TraceWriter writer = TraceWriter.open(full, rehearsal, notes::add)) {
      RehearsalOutcome outcome = new SimulatedRehearsal(rehearsal, BENCH).recordedBy(writer).run();
      assertEquals(live.rulings().size(), outcome.rulings().size());
      assertFalse(writer.whole());
    }
    assertEquals(1, notes.size(), notes.toString());
    assertTrue(notes.get(0).contains("the rehearsal goes on"), notes.get(0));
  }

  private static List<String> lines() throws IOException {
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                new GZIPInputStream(Files.newInputStream(file)), StandardCharsets.UTF_8))) {
      return in.lines().toList();
    }
  }

  private static Path write(String name, List<String> lines) throws IOException {
    Path to = directory.resolve(name);
    return Files.writeString(to, String.join("\n", lines) + "\n");
  }

  /** Compressed or not is told by the name alone. */
  @Test
  void aFileThatIsNoRecordIsRefused() throws Exception {
    Path other = directory.resolve("other.jsonl.gz");
    try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(other))) {
      out.write("{\"something\":1}\n".getBytes(StandardCharsets.UTF_8));
    }
    InstrumentTrouble e = assertThrows(InstrumentTrouble.class, () -> replay(other, rehearsal));
    assertTrue(e.getMessage().contains("--record"), e.getMessage());
  }
}
