package bellwire.analysis.calls;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.calls.LevelTracker.Feed;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Sampled sines whose contacts' moments are known: each must lie in the interval that is told. Runs
 * longer with {@code -Dbellwire.edges=N}.
 */
class LevelTrackerAcTest {
  private static final int EDGES = Integer.getInteger("bellwire.edges", 20_000);
  private static final long SEED = Long.getLong("bellwire.seed", 41);

  /** One lead's contact: closed from one moment to the next. */
  private static final class Contact implements Leads.Wave {
    final List<Double> edges = new ArrayList<>(); // closing, opening, ...
    final Leads.Wave supply;
    private int at;

    Contact(Leads.Wave supply) {
      this.supply = supply;
    }

    /** Asked with rising time, but for the delay of the inputs. */
    boolean closed(double t) {
      while (at < edges.size() && edges.get(at) <= t) {
        at++;
      }
      return at % 2 == 1;
    }

    @Override
    public double volts(double micros) {
      return closed(micros) ? supply.volts(micros) : 0;
    }
  }

  private static Contact contact(Leads leads, Leads.Wave supply, int edges) {
    Contact contact = new Contact(supply);
    double t = leads.now() + 100_000;
    for (int i = 0; i < edges; i++) {
      boolean closing = i % 2 == 0;
      t +=
          closing
              ? 60e3 + leads.random.nextDouble() * 500e3
              : 150e3 + leads.random.nextDouble() * 600e3;
      contact.edges.add(t);
    }
    return contact;
  }

  @Test
  void everyEdgeLiesInTheIntervalThatIsTold() {
    System.out.println("seed=" + SEED);
    SplittableRandom random = new SplittableRandom(SEED);
    int done = 0;
    int wide = 0;
    double sum = 0;
    while (done < EDGES) {
      Leads leads = new Leads(Feed.AC, 0xFFFF, random.split());
      leads.jitterMicros = random.nextBoolean() ? 60 : 400;
      double nominal =
          random.nextInt(3) == 0 ? 50 : random.nextBoolean() ? 60 : 47 + 16 * random.nextDouble();
      double hertz = nominal * (1 + 0.002 * (random.nextDouble() - 0.5));
      int each = 100;
      List<Contact> contacts = new ArrayList<>();
      for (int i = 0; i < 16; i++) {
        // two supplies at most, of phases of their own
        double phase = i % 2 == 0 ? 0.3 : 2 * Math.PI * random.nextDouble();
        double volts = 18 + 12 * random.nextDouble();
        contacts.add(contact(leads, Leads.sine(volts, hertz, phase), each));
        leads.wave(i, contacts.get(i));
      }
      leads.run(80_000_000);
      leads.finish();
      for (int i = 0; i < 16; i++) {
        List<LevelChange> told = leads.told.get(i);
        String what = "seed=%d hertz=%.3f lead=%d".formatted(SEED, hertz, i);
        assertThat(told).as(what).hasSize(each + 1);
        assertThat(told.get(0).level()).as(what).isEqualTo(Level.OFF);
        for (int e = 0; e < each; e++) {
          LevelChange change = told.get(e + 1);
          assertThat(change.level()).as(what).isEqualTo(e % 2 == 0 ? Level.ON : Level.OFF);
          double moment = contacts.get(i).edges.get(e);
          assertThat(moment)
              .as("%s edge=%d %s", what, e, change)
              .isBetween((double) change.earliestMicros(), (double) change.latestMicros());
          double width = change.latestMicros() - change.earliestMicros();
          wide += width > 5e5 / hertz + 2000 ? 1 : 0;
          sum += width;
          done++;
        }
      }
      assertThat(leads.tracker.mainsHertz()).isEmpty();
    }
    System.out.printf(
        "edges %d, mean width %.2f ms, over half a period and 2 ms: %.3f %%%n",
        done, sum / done / 1000, 100.0 * wide / done);
    assertThat(wide).isLessThan(done / 100);
  }

  @Test
  void theFrequencyIsFound() {
    SplittableRandom random = new SplittableRandom(SEED + 1);
    double worst = 0;
    for (int run = 0; run < 300; run++) {
      Leads leads = new Leads(Feed.AC, 0b11, random.split());
      double hertz =
          run % 3 == 0
              ? 50 * (1 + 0.001 * (2 * random.nextDouble() - 1))
              : 45.2 + 19.6 * random.nextDouble();
      leads.wave(1, Leads.sine(18 + 12 * random.nextDouble(), hertz, 6.3 * random.nextDouble()));
      leads.run(2_000_000);
      assertThat(leads.tracker.mainsHertz()).as("run=%d hertz=%f", run, hertz).isPresent();
      double found = leads.tracker.mainsHertz().getAsDouble();
      worst = Math.max(worst, Math.abs(found / hertz - 1));
      assertThat(leads.tracker.level(1)).isEqualTo(Level.ON);
    }
    System.out.printf("mains frequency: worst error %.3f %%%n", 100 * worst);
    assertThat(worst).isLessThan(0.003);
  }

  @Test
  void voltagesAreTakenForWhatTheyAre() {
    SplittableRandom random = new SplittableRandom(SEED + 2);
    for (int run = 0; run < 400; run++) {
      Leads leads = new Leads(Feed.AC, 0xFF, random.split());
      double hertz = 47 + 16 * random.nextDouble();
      double phase = 6.3 * random.nextDouble();
      Leads.Wave call = Leads.sine(18 + 12 * random.nextDouble(), hertz, phase);
      Leads.Wave strong = Leads.sine(18 + 12 * random.nextDouble(), hertz, phase);
      Leads.Wave leak = Leads.sine(7.5 + 1.5 * random.nextDouble(), hertz, phase + 1);
      Leads.Wave faint = Leads.sine(5.5 * random.nextDouble(), hertz, phase + 1);
      double from = leads.now() + 300_000 + random.nextInt(20_000);
      leads.wave(0, call);
      leads.wave(1, t -> t < from ? 0 : Math.max(0, strong.volts(t)));
      leads.wave(2, t -> t < from ? 0 : leak.volts(t));
      leads.wave(3, faint);
      leads.wave(4, t -> t < from ? 0 : 24);
      leads.wave(5, call);
      leads.wave(6, t -> t < from ? call.volts(t) : leak.volts(t));
      double sagged = 24 - 9 * random.nextDouble();
      Leads.Wave sag = Leads.sine(1, hertz, phase);
      leads.wave(7, t -> sag.volts(t) * Math.max(18, sagged - (t - from) / 1e6));
      leads.run(1_500_000);
      String what = "seed=%d run=%d hertz=%f".formatted(SEED, run, hertz);
      assertThat(leads.tracker.level(0)).as(what).isEqualTo(Level.ON);
      assertThat(leads.tracker.level(1)).as(what).isEqualTo(Level.WEAK);
      assertThat(leads.tracker.halfWave(1)).as(what).isTrue();
      assertThat(leads.tracker.level(2)).as(what).isEqualTo(Level.WEAK);
      assertThat(leads.tracker.halfWave(2)).as(what).isFalse();
      assertThat(leads.tracker.level(3)).as(what).isEqualTo(Level.OFF);
      assertThat(leads.tracker.level(4)).as(what).isEqualTo(Level.UNKNOWN);
      assertThat(leads.tracker.doubt(4)).as(what).isEqualTo(Doubt.STEADY_VOLTAGE);
      assertThat(leads.tracker.level(6)).as(what).isEqualTo(Level.WEAK);
      assertThat(leads.tracker.level(7)).as(what).isEqualTo(Level.ON);
      leads.finish();
      for (int lead : new int[] {1, 2, 4}) {
        List<LevelChange> told = leads.told.get(lead);
        assertThat(told).as("%s %s", what, told).hasSize(2);
        assertThat(from)
            .as("%s %s", what, told)
            .isBetween(
                (double) told.get(1).earliestMicros(),
                // unknown is told from where it may have begun
                told.get(1).latestMicros() + (lead == 4 ? 35_000.0 : 0.0));
      }
      assertThat(leads.told.get(7)).as(what).hasSize(1);
      assertThat(leads.told.get(6)).as("%s", leads.told.get(6)).hasSize(2);
      assertThat(from)
          .isBetween(
              leads.told.get(6).get(1).earliestMicros() - 0.0,
              leads.told.get(6).get(1).latestMicros() + 0.0);
      assertThat(leads.told.get(3)).as(what).hasSize(1);
    }
  }
}
