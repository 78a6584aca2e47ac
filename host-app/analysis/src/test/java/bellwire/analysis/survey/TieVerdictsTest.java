package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.survey.TieRound.Loop;
import bellwire.analysis.ties.TiePlan;
import bellwire.analysis.ties.TieReading;
import bellwire.analysis.ties.TieReading.Explanation;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What is said of conductors by ties, readings and loops put together by hand. */
class TieVerdictsTest {
  private static final TiePlan PLAN = TiePlan.ofChains(List.of(8));

  private OpenFindings open = new OpenFindings(0, 1, 2, 3, 4, 5, 6, 7);
  private final Map<Integer, SortedSet<Integer>> possible = new LinkedHashMap<>();
  private final List<TieRound> rounds = new ArrayList<>();
  private Explanation explanation = Explanation.AS_PLANNED;
  private int opens;
  private SortedSet<Integer> broken = new TreeSet<>();
  private SortedSet<Integer> maybe = new TreeSet<>();
  private SortedSet<Integer> surely = new TreeSet<>();
  private List<Finding> findings = List.of();

  /** Far number 1 on P1 and so on; in round 1 P1-P2, P3-P4, ..., in round 2 P2-P3, ... */
  TieVerdictsTest() {
    IntStream.range(0, 8).forEach(p -> may(p, p + 1));
    rounds.add(round(0, 1.0, 1.0, 1.0, 1.0));
    rounds.add(round(1, 1.0, 1.0, 1.0));
  }

  private void may(int port, Integer... numbers) {
    possible.put(port, new TreeSet<>(List.of(numbers)));
  }

  private static TieRound round(int first, double... ohms) {
    List<List<Integer>> joined = new ArrayList<>();
    List<Loop> loops = new ArrayList<>();
    for (int k = 0; k < ohms.length; k++) {
      int a = first + 2 * k;
      joined.add(List.of(a, a + 1));
      loops.add(new Loop(a, a + 1, Quantity.ohms(ohms[k], 0.01)));
    }
    return new TieRound(joined, loops);
  }

  private TieReading reading() {
    return new TieReading(explanation, opens, possible, broken, maybe, surely);
  }

  private List<ConductorResult> conductors() {
    OpenResult result = open.result();
    TieRun run = new TieRun(PLAN, TieRound.shorted(result), rounds, reading());
    TieJoints joints = new TieJoints(run, Criteria.standard());
    TieVerdicts verdicts =
        new TieVerdicts(result, run, joints, new TieBreaks(result, reading(), null));
    List<ConductorResult> conductors = verdicts.conductors();
    findings = verdicts.findings();
    return conductors;
  }

  private String reason(int port) {
    return conductors().get(port).reason();
  }

  private List<String> said(CableFinding kind) {
    return findings.stream().filter(f -> f.kind() == kind).map(Finding::words).toList();
  }

  @Test
  void oneNumberAndAFellowIsSound() {
    assertThat(conductors())
        .allMatch(c -> c.standing() == Standing.SOUND && c.position() == c.port() + 1);
    assertThat(findings).isEmpty();
  }

  @Test
  void numbersThatItMayHaveAreListed() {
    may(0, 2, 4);
    may(1, 2, 4);
    may(2, 3, 5, 7);
    may(3, 1, 2, 3, 4, 5, 6);
    may(4, 1, 2, 3, 4, 5, 6, 7);
    assertThat(reason(0)).isEqualTo("far number 2 or 4: nothing tells them apart");
    assertThat(reason(2)).startsWith("far number 3, 5 or 7: ");
    assertThat(reason(3)).startsWith("far number 1, 2, 3, 4, 5 or 6: ");
    assertThat(reason(4)).startsWith("one of 7 far numbers: ");
    assertThat(said(CableFinding.AMBIGUOUS))
        .contains("P1 and P2: far number 2 or 4, nothing tells them apart")
        .hasSize(4);
    assertThat(conductors().get(0).position()).isZero();
  }

  @Test
  void whyItStaysOpenIsSaid() {
    may(0, 2, 4);
    rounds.remove(1);
    assertThat(reason(0)).endsWith("one round only was seen, which may have been either");
    rounds.clear();
    assertThat(reason(0)).endsWith("no round of ties was seen");
  }

  @Test
  void whatDoesNotFitThePlanIdentifiesNothing() {
    may(2);
    assertThat(reason(2)).isEqualTo("not identified: the ties do not fit the plan");
    possible.remove(2);
    assertThat(reason(2)).isEqualTo("not identified: the ties do not fit the plan");
    assertThat(findings).isEmpty();
    explanation = Explanation.UNEXPLAINED;
    assertThat(reason(0)).isEqualTo("not identified: the ties do not fit the plan");
    assertThat(said(CableFinding.MISTIED).get(0)).contains("is not what the plan joins");
    explanation = Explanation.TOO_MANY;
    conductors();
    assertThat(said(CableFinding.MISTIED).get(0)).startsWith("too many conductors touch");
  }

  @Test
  void aNumberThatNoPortHasIsToldAsSuch() {
    explanation = Explanation.OPENS;
    opens = 1;
    broken = new TreeSet<>(List.of(3));
    assertThat(reason(0)).isEqualTo("sound, far number 1, if nothing else is wrong");
    assertThat(said(CableFinding.UNTIED))
        .containsExactly("the conductor of far number 3 is on no port");
  }

  @Test
  void oneOfSomeIsBroken() {
    explanation = Explanation.OPENS;
    opens = 1;
    broken = new TreeSet<>(List.of(3, 4));
    maybe = new TreeSet<>(List.of(2, 3));
    assertThat(reason(2))
        .isEqualTo("in no tie: broken, or a broken one was its partner; far number 3");
    assertThat(reason(1)).startsWith("sound");
    assertThat(said(CableFinding.UNTIED))
        .containsExactly("one of P3 and P4 broken or not in the clip: far number 3 or 4");
    opens = 2;
    maybe.add(5);
    conductors();
    assertThat(said(CableFinding.UNTIED).get(0)).startsWith("two of P3, P4 and P6 broken");
  }

  /** 0.6 of its fellows' capacitance. */
  @Test
  void theBrokenOneIsNamedWithItsPlace() {
    explanation = Explanation.OPENS;
    opens = 1;
    broken = new TreeSet<>(List.of(3));
    maybe = new TreeSet<>(List.of(2));
    surely = new TreeSet<>(List.of(2));
    open.farads(2, 0.6 * 1.485e-9 + 15e-12);
    ConductorResult result = conductors().get(2);
    assertThat(result.standing()).isEqualTo(Standing.FAULTY);
    assertThat(result.reason()).isEqualTo("far number 3, no path to the far end");
    assertThat(result.position()).isEqualTo(3);
    assertThat(said(CableFinding.UNTIED).get(0))
        .startsWith("P3: far number 3, open at 59.")
        .endsWith("% of the run");
  }

  /** Of two that may be broken, one shows by its capacitance that it is; one was enough. */
  @Test
  void capacitanceSaysWhichIfItSaysItOfAsManyAsThereAre() {
    maybe = new TreeSet<>(List.of(2, 3));
    opens = 1;
    open.farads(2, 0.6e-9);
    assertThat(TieBreaks.byCapacitance(open.result(), reading())).containsExactly(2);
    open.farads(3, 0.6e-9);
    assertThat(TieBreaks.byCapacitance(open.result(), reading())).isEmpty();
    opens = 2;
    assertThat(TieBreaks.byCapacitance(open.result(), reading())).containsExactly(2, 3);
  }

  @Test
  void whatTouchesAnotherIsUndecided() {
    open.joined(0, 1, 0.5);
    assertThat(reason(0)).isEqualTo("touches P2; far number 1");
    assertThat(reason(1)).isEqualTo("touches P1; far number 2");
    assertThat(reason(2)).isEqualTo("sound, far number 3, if nothing else is wrong");
  }

  /** In no tie of either round: nothing was read through it. */
  @Test
  void byEliminationAloneNothingIsSound() {
    rounds.set(0, round(0, 1.0, 1.0, 1.0));
    assertThat(conductors().get(7).standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(reason(7)).startsWith("far number 8, by elimination: ");
    assertThat(said(CableFinding.UNPROVED)).containsExactly("P8 was in no tie");
  }

  /** Its own loop is the only one there is. */
  @Test
  void aResistanceNeedsAnotherToBeComparedWith() {
    rounds.set(0, round(0, 1.0));
    rounds.remove(1);
    assertThat(reason(0)).endsWith("; its resistance has nothing to be compared with");
    rounds.set(0, round(0, 1.0, 1.0));
    assertThat(reason(0)).isEqualTo("sound, far number 1");
  }

  /** Both its loops have as much more, within what the readings tell: it is the conductor. */
  @Test
  void twoLoopsThatAgreeBlameTheirConductor() {
    rounds.set(0, round(0, 1.0, 1.5, 1.0, 1.0));
    rounds.set(1, round(1, 1.5, 1.0, 1.0));
    ConductorResult joint = conductors().get(2);
    assertThat(joint.standing()).isEqualTo(Standing.FAULTY);
    assertThat(joint.reason())
        .startsWith("0.500 ± 0.0")
        .endsWith("a joint or a nick; far number 3");
    assertThat(said(CableFinding.JOINT).get(0)).startsWith("P3 has 0.500 ± 0.0");
    assertThat(conductors().get(1).standing()).isEqualTo(Standing.SOUND);
    assertThat(conductors().get(3).standing()).isEqualTo(Standing.SOUND);
  }

  /** One has 0.5 ohm more, the other 3 ohm: no one conductor explains both. */
  @Test
  void twoLoopsThatDisagreeBlameNobodySurely() {
    rounds.set(0, round(0, 1.0, 1.5, 1.0, 1.0));
    rounds.set(1, round(1, 4.0, 1.0, 1.0));
    assertThat(conductors().get(2).standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(reason(2)).contains("too much in its pair with").contains("or the clip of that tie");
    assertThat(conductors().get(1).standing()).isEqualTo(Standing.SOUND);
  }

  /** At the end of the chain it is in one loop only; its partner's other loop clears that one. */
  @Test
  void oneLoopBlamesAConductorOrItsClip() {
    rounds.set(0, round(0, 1.5, 1.0, 1.0, 1.0));
    assertThat(reason(0)).contains("too much in its pair with P2: a joint, or the clip");
    assertThat(reason(1)).isEqualTo("sound, far number 2");
  }
}
