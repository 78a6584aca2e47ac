package bellwire.app.desk.rehearsal;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.calls.Level;
import bellwire.app.desk.rehearsal.DeskOperator.Phase;
import bellwire.app.desk.rehearsal.DeskOperator.Reply;
import bellwire.app.rehearsal.Operator.Answer;
import bellwire.app.rehearsal.Operator.Choice;
import bellwire.app.rehearsal.Operator.Moment;
import bellwire.app.rehearsal.Operator.Next;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.app.rehearsal.RehearsalSite;
import bellwire.app.rehearsal.Step;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What a person's keys mean to a rehearsal. */
class DeskOperatorTest {
  private static final List<Level> OFF = List.of(Level.OFF, Level.OFF, Level.OFF);
  private Rehearsal rehearsal;
  private Step cooling;

  @BeforeEach
  void read() throws Exception {
    rehearsal = RehearsalFile.builtIn("furnace-cooling", Map.of());
    cooling = rehearsal.steps().stream().filter(Step::runsCompressor).findFirst().orElseThrow();
  }

  private Moment moment(Step step, boolean reached, boolean late) {
    return new Moment(step, OFF, reached, reached, late, 0, 0);
  }

  /** Replies as soon as time has passed once. */
  private Answer begin(DeskOperator operator, Step step, Reply... replies) throws Exception {
    int[] at = new int[1];
    return operator.begin(
        step,
        1,
        2,
        () -> {
          assertThat(operator.now().phase()).isEqualTo(Phase.ASKED);
          operator.reply(replies[Math.min(at[0]++, replies.length - 1)]);
          return OFF;
        });
  }

  @Test
  void aStepIsDoneSkippedWithItsReasonOrTheEnd() throws Exception {
    DeskOperator operator = new DeskOperator(new RehearsalSite(false, false));
    Step step = rehearsal.steps().get(0);
    assertThat(begin(operator, step, new Reply.Done())).isEqualTo(new Answer(Choice.DO, ""));
    // Without a reason it is not skipped; the next key counts.
    assertThat(begin(operator, step, new Reply.Skip(" "), new Reply.Skip("no fan")))
        .isEqualTo(new Answer(Choice.SKIP, "not tested, because no fan"));
    assertThat(begin(operator, step, new Reply.End("")).choice()).isEqualTo(Choice.END);
  }

  @Test
  void inTheColdOnlyTheCallIsSeen() throws Exception {
    DeskOperator cold = new DeskOperator(new RehearsalSite(true, true));
    assertThat(begin(cold, cooling, new Reply.Done()).reason()).isEqualTo(RehearsalSite.CALL_ONLY);
    DeskOperator warm = new DeskOperator(new RehearsalSite(true, false));
    assertThat(begin(warm, cooling, new Reply.Done()).reason()).isEmpty();
  }

  @Test
  void aWatchedStepGoesOnByItselfOrByKey() throws Exception {
    DeskOperator operator = new DeskOperator(new RehearsalSite(false, false));
    begin(operator, cooling, new Reply.Done());
    assertThat(operator.look(moment(cooling, false, false))).isEqualTo(Next.WAIT);
    assertThat(operator.look(moment(cooling, true, false))).isEqualTo(Next.GO_ON);
    assertThat(operator.look(moment(cooling, false, true))).isEqualTo(Next.GO_ON);
    operator.reply(new Reply.GoOn());
    assertThat(operator.look(moment(cooling, false, false))).isEqualTo(Next.GO_ON);
  }

  @Test
  void aRepeatedStepGivesItsReasonAndThePowerBackFirst() throws Exception {
    DeskOperator operator = new DeskOperator(new RehearsalSite(false, false));
    Step without =
        rehearsal.steps().stream()
            .filter(s -> Boolean.FALSE.equals(s.deed().power()))
            .findFirst()
            .orElseThrow();
    begin(operator, without, new Reply.Done());
    operator.reply(new Reply.Repeat("slipped"));
    assertThat(operator.look(moment(without, false, false))).isEqualTo(Next.REPEAT);
    assertThat(operator.observe(without, () -> OFF)).isEqualTo("repeated, because slipped");
    boolean[] first = new boolean[1];
    operator.begin(
        without,
        1,
        2,
        () -> {
          first[0] |= operator.now().powerFirst();
          operator.reply(new Reply.Done());
          return OFF;
        });
    assertThat(first[0]).isTrue();
  }

  @Test
  void whatTheEquipmentDidIsAskedLiveOnly() throws Exception {
    DeskOperator bench = new DeskOperator(new RehearsalSite(false, false));
    assertThat(bench.observe(cooling, () -> OFF)).isEmpty();
    DeskOperator live = new DeskOperator(new RehearsalSite(true, false));
    String said =
        live.observe(
            cooling,
            () -> {
              live.reply(new Reply.Observed("no"));
              return OFF;
            });
    assertThat(said).isEqualTo("NOT as expected: " + cooling.listen());
  }
}
