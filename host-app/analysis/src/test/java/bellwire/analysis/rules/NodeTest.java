package bellwire.analysis.rules;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.logic.Verdict;
import org.junit.jupiter.api.Test;

/** Which worlds are taken for one, docs/rules.md, section 4. */
class NodeTest {
  private final Node node = new Node(0, 0, 0, 0);

  private static Hypothesis started(long earliest, long latest) {
    Hypothesis h = new Hypothesis(Letters.SCOPE);
    h.start(1, earliest, latest);
    return h;
  }

  @Test
  void worldsThatStandAlikeAreOne() {
    assertThat(node.add(started(5, 8))).isTrue();
    assertThat(node.add(started(5, 8))).as("brings nothing").isFalse();
    Hypothesis broken = started(5, 8);
    broken.judge(Verdict.UNDECIDED);
    assertThat(node.add(broken)).as("may be broken").isTrue();
    assertThat(node.hypotheses()).hasSize(1);
    Hypothesis both = node.hypotheses().get(0);
    assertThat(both.canKeep && both.canBreak).isTrue();
  }

  @Test
  void worldsThatStandOtherwiseAreKeptApart() {
    node.add(started(5, 8));
    Hypothesis otherLetter = new Hypothesis(Letters.FIRST);
    otherLetter.start(1, 5, 8);
    assertThat(node.add(otherLetter)).isTrue();
    Hypothesis otherState = started(5, 8);
    otherState.state = 2;
    assertThat(node.add(otherState)).isTrue();
    Hypothesis latched = started(5, 8);
    latched.latched = true;
    assertThat(node.add(latched)).isTrue();
    assertThat(node.hypotheses()).hasSize(4);
  }

  /**
   * What one world kept and another broke may be either; the room is the worst's and the best's.
   */
  @Test
  void whatWorldsComeToIsAddedUp() {
    Hypothesis broken = started(5, 8);
    broken.judge(Verdict.BROKEN);
    broken.narrow(new Span(-4, -3));
    broken.canBreak = true;
    node.add(broken);
    Hypothesis kept = started(5, 8);
    kept.narrow(new Span(2, 3));
    assertThat(node.add(kept)).isTrue();
    Hypothesis one = node.hypotheses().get(0);
    assertThat(one.canKeep && one.canBreak && one.keepsLately).isTrue();
    assertThat(new Span(one.marginLow, one.marginHigh)).isEqualTo(new Span(-4, 3));
    assertThat(node.add(kept.copy())).as("told already").isFalse();
  }

  @Test
  void eachThingThatAWorldBringsIsToldAsNew() {
    Hypothesis broken = started(5, 8);
    broken.judge(Verdict.BROKEN);
    broken.narrow(new Span(1, 1));
    Hypothesis kept = started(5, 8);
    kept.keepsLately = false;
    kept.narrow(new Span(1, 1));
    assertThat(broken.copy().merge(kept)).as("may be kept").isTrue();
    assertThat(kept.copy().merge(broken)).as("may be broken").isTrue();
    Hypothesis lately = kept.copy();
    lately.keepsLately = true;
    assertThat(kept.copy().merge(lately)).as("kept lately").isTrue();
    Hypothesis worse = kept.copy();
    worse.marginLow = 0;
    assertThat(kept.copy().merge(worse)).as("less room").isTrue();
    Hypothesis better = kept.copy();
    better.marginHigh = 2;
    assertThat(kept.copy().merge(better)).as("more room").isTrue();
    assertThat(kept.copy().merge(kept.copy())).isFalse();
  }

  /** More than 16 intervals for a stop-watch's start are one: the last takes the others in. */
  @Test
  void moreThanSixteenStartsAreNotToldApart() {
    for (int i = 0; i < 16; i++) {
      assertThat(node.add(started(100 * i, 100 * i + 10))).isTrue();
    }
    assertThat(node.hypotheses()).hasSize(16);
    assertThat(node.add(started(3000, 3010))).isTrue();
    assertThat(node.hypotheses()).hasSize(16);
    Hypothesis widest = node.hypotheses().get(15);
    assertThat(new Span(widest.sinceEarliest, widest.sinceLatest)).isEqualTo(new Span(1500, 3010));
    assertThat(node.add(started(1600, 1610))).as("within what is taken for one").isFalse();
    assertThat(node.add(started(1400, 1410))).as("one of the sixteen").isFalse();
  }

  @Test
  void whatComesToStandAlikeIsJoined() {
    node.add(started(5, 8));
    node.add(started(6, 8));
    node.hypotheses().get(1).start(1, 5, 8);
    node.join();
    assertThat(node.hypotheses()).hasSize(1);
  }
}
