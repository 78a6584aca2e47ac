package bellwire.analysis.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class FindingWordsTest {
  private static final List<FindingKind[]> KINDS =
      List.of(
          CableFinding.values(),
          ChangeFinding.values(),
          LoopFinding.values(),
          MistakeKind.values());

  private static Stream<FindingKind> all() {
    return KINDS.stream().flatMap(Stream::of);
  }

  @Test
  void aTitleIsAPhraseAndARemedyWholeSentences() {
    assertThat(all())
        .allSatisfy(
            kind -> {
              assertThat(kind.title()).as(kind.toString()).matches("[a-z].*[^.]");
              assertThat(kind.remedy()).as(kind.toString()).matches("(?s)[A-Z'].*[.]");
            });
  }

  @Test
  void whatIsFoundIsToldApart() {
    for (FindingKind[] kinds : KINDS) {
      Set<String> remedies = new HashSet<>();
      for (FindingKind kind : kinds) {
        assertThat(remedies.add(kind.title() + kind.remedy())).as(kind.toString()).isTrue();
      }
    }
  }

  /** The cautions of README.md: the cause first, then the same type and rating, never a larger. */
  @Test
  void aFuseIsFittedAfterItsCauseIsFoundAndNeverALarger() {
    List<FindingKind> fitted =
        all().filter(k -> k.remedy().matches("(?s).*fits? (only )?(a fuse|the same).*")).toList();
    assertThat(fitted).hasSizeGreaterThan(8);
    assertThat(fitted)
        .allSatisfy(
            kind -> {
              String remedy = kind.remedy();
              assertThat(remedy).as(kind.toString()).contains("same type and rating");
              int fit = remedy.indexOf("same type and rating");
              assertThat(remedy.substring(0, fit))
                  .as(kind.toString())
                  .containsPattern("(?i)find|clear|mend");
            });
  }

  @Test
  void aProtectiveSwitchIsNeverBridged() {
    assertThat(
            List.of(
                MistakeKind.FLOAT_OPEN,
                MistakeKind.LIMIT_OPEN,
                MistakeKind.PRESSURE_OPEN,
                MistakeKind.DOOR_OPEN))
        .allSatisfy(kind -> assertThat(kind.remedy()).contains("never bridge"));
  }

  @Test
  void onlyCopperOnCopperIsCalledTouching() {
    assertThat(Stream.of(CableFinding.values()).filter(CableFinding::touching))
        .containsExactly(
            CableFinding.TOUCHING,
            CableFinding.TOUCHING_AT_THE_NEAR_END,
            CableFinding.TOUCHING_AT_THE_FAR_END,
            CableFinding.TOUCHING_ON_THE_WAY);
  }

  /** One given conductor, pair or part: rare, and none impossible. */
  @Test
  void aMistakesPriorIsAChance() {
    assertThat(MistakeKind.values())
        .allSatisfy(kind -> assertThat(kind.prior()).isBetween(0.0001, 0.02));
  }

  @Test
  void symptomsOfTheLoopAloneAreBlanknessFusesAndHeat() {
    assertThat(Symptom.seldomOutside())
        .contains(Symptom.CONTROL_BLANK, Symptom.FUSE_OPENS_AT_ONCE, Symptom.TRANSFORMER_HOT)
        .doesNotContain(Symptom.FAN_ALWAYS_ON, Symptom.HUMS, Symptom.CHATTERS);
  }
}
