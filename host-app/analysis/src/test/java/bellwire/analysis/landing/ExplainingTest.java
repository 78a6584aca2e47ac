package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.ExplainingRun.Order;
import bellwire.analysis.landing.ExplainingRun.Tally;
import bellwire.analysis.loop.SampleLoops;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * Every single mistake told of by what it shows, one symptom left out and one added that does not
 * show. {@code -Dbellwire.explained=N} takes every sample, each mistake N times, and prints the
 * table; {@code -Dbellwire.dialogues=N} asks to the end for each N-th of them.
 */
class ExplainingTest {
  private static final int ROUNDS = Integer.getInteger("bellwire.explained", 0);
  private static final int EVERY = Integer.getInteger("bellwire.dialogues", 4);
  private static final long SEED = Long.getLong("bellwire.seed", 20);

  /** In the gate, and there of the last each fourth mistake and no whole check lists. */
  private static final List<SampleLoops> QUICK =
      List.of(SampleLoops.HEAT_ONLY, SampleLoops.BOILER, SampleLoops.ZONE_PANEL);

  private static final class Counts {
    int cases;
    int classInFirstThree;
    int causeInFirstThree;
    int alone;
    int aloneInFirstThree;

    void add(Counts other) {
      cases += other.cases;
      classInFirstThree += other.classInFirstThree;
      causeInFirstThree += other.causeInFirstThree;
      alone += other.alone;
      aloneInFirstThree += other.aloneInFirstThree;
    }

    String row() {
      return String.format(
          Locale.ROOT,
          "%5d %6.1f %% %6.1f %% (%d with one symptom only: %.1f %%)",
          cases,
          100.0 * classInFirstThree / cases,
          100.0 * causeInFirstThree / cases,
          alone,
          100.0 * aloneInFirstThree / Math.max(1, alone));
    }
  }

  @Test
  void spoiltSymptomsAndTheirDialogues() {
    List<SampleLoops> samples = ROUNDS > 0 ? List.of(SampleLoops.values()) : QUICK;
    System.out.println("seed " + SEED + "; in the first three: by symptoms; one by one");
    Counts all = new Counts();
    Map<Order, Tally> tallies = new EnumMap<>(Order.class);
    for (SampleLoops sample : samples) {
      ExplainingRun run = new ExplainingRun(sample, SEED);
      List<Supposed> truths = new ArrayList<>();
      List<Set<Symptom>> told = new ArrayList<>();
      for (int round = 0; round < Math.max(1, ROUNDS); round++) {
        for (int k = 0; k < run.mistakes().size(); k += ROUNDS > 0 || k < 20 ? 1 : 4) {
          truths.add(run.mistakes().get(k));
          told.add(run.spoilt(run.mistakes().get(k)));
        }
      }
      Counts counts = count(run, truths, told);
      all.add(counts);
      System.out.printf(
          "%s: %d mistakes show nothing, %d show %d sets of symptoms, %d of them nothing tells"
              + " apart: %s%n",
          sample,
          run.withoutSymptom(),
          run.mistakes().size(),
          run.classes(),
          run.neverToldApart(),
          counts.row());
      converse(run, truths, told, tallies);
    }
    System.out.println("all: " + all.row());
    tallies.forEach(
        (order, t) ->
            System.out.printf(
                Locale.ROOT,
                "%s: %d dialogues, %d right, %d wrong, the others undecided; mean of %.1f steps,"
                    + " effort %.1f%n",
                order.words,
                t.dialogues,
                t.right,
                t.wrong,
                1.0 * t.steps / t.dialogues,
                t.cost / t.dialogues));
    assertThat(1.0 * all.classInFirstThree / all.cases).isGreaterThanOrEqualTo(0.95);
    Tally information = tallies.get(Order.INFORMATION);
    assertThat(information.wrong).isLessThanOrEqualTo(information.dialogues / 20);
    assertThat(information.right).isGreaterThanOrEqualTo(information.dialogues * 9 / 10);
    assertThat(information.steps).isLessThan(tallies.get(Order.CHECK_LIST).steps);
    assertThat(information.cost).isLessThan(tallies.get(Order.CHECK_LIST).cost);
  }

  private static Counts count(ExplainingRun run, List<Supposed> truths, List<Set<Symptom>> told) {
    Counts counts = new Counts();
    for (int k = 0; k < truths.size(); k++) {
      Supposed truth = truths.get(k);
      Dialogue d = run.explain(told.get(k));
      boolean in = ExplainingRun.placeBySymptoms(d, truth) < 3;
      boolean alone = ExplainingRun.certain(truth).size() == 1;
      counts.cases++;
      counts.classInFirstThree += in ? 1 : 0;
      counts.causeInFirstThree += ExplainingRun.place(d, truth) < 3 ? 1 : 0;
      counts.alone += alone ? 1 : 0;
      counts.aloneInFirstThree += alone && in ? 1 : 0;
    }
    return counts;
  }

  private static void converse(
      ExplainingRun run,
      List<Supposed> truths,
      List<Set<Symptom>> told,
      Map<Order, Tally> tallies) {
    List<Order> orders =
        ROUNDS > 0 ? List.of(Order.values()) : List.of(Order.INFORMATION, Order.CHECK_LIST);
    for (Order order : orders) {
      Tally tally = tallies.computeIfAbsent(order, o -> new Tally());
      for (int k = 0; k < truths.size(); k += EVERY) {
        tally.add(run.converse(truths.get(k), told.get(k), order));
      }
    }
  }
}
