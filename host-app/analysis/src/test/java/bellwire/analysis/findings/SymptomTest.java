package bellwire.analysis.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class SymptomTest {
  @Test
  void idWordsAndSynonymsFindTheirSymptomAndNoOther() {
    for (Symptom s : Symptom.values()) {
      assertThat(Symptom.find(s.id()).symptom()).isEqualTo(s);
      assertThat(Symptom.find(s.words()).symptom()).isEqualTo(s);
      assertThat(s.synonyms()).as(s.id()).isNotEmpty();
      for (String synonym : s.synonyms()) {
        assertThat(Symptom.find(synonym).symptom()).as(synonym).isEqualTo(s);
      }
    }
  }

  @Test
  void orderCapitalsAndArticlesDoNotMatter() {
    assertThat(Symptom.find("The fan is ALWAYS on!").symptom()).isEqualTo(Symptom.FAN_ALWAYS_ON);
    assertThat(Symptom.find("always on: fan").symptom()).isEqualTo(Symptom.FAN_ALWAYS_ON);
  }

  @Test
  void theOrderTellsApartWhatIsSaidWithTheSameWords() {
    assertThat(Symptom.find("heat runs when cooling is called").symptom())
        .isEqualTo(Symptom.HEATS_ON_COOLING);
    assertThat(Symptom.find("cooling runs when heat is called").symptom())
        .isEqualTo(Symptom.COOLS_ON_HEAT);
    assertThat(Symptom.find("called heat cooling when runs").symptom()).isNull();
  }

  @Test
  void aSlipOfThePenIsSuggestedAndNotTaken() {
    Symptom.Match match = Symptom.find("fan alwais on");
    assertThat(match.symptom()).isNull();
    assertThat(match.near()).first().isEqualTo(Symptom.FAN_ALWAYS_ON);
  }

  @Test
  void wordsOfSomethingElseSuggestNothing() {
    Symptom.Match match = Symptom.find("xyzzy qwfp");
    assertThat(match.symptom()).isNull();
    assertThat(match.near()).isEmpty();
    assertThat(Symptom.find("")).isEqualTo(new Symptom.Match(null, List.of()));
  }

  @Test
  void fitIntoTheBitsOfALong() {
    assertThat(Symptom.values().length).isLessThanOrEqualTo(63);
    Map<String, Symptom> words = new HashMap<>();
    for (Symptom s : Symptom.values()) {
      assertThat(words.put(s.words(), s)).isNull();
    }
  }
}
