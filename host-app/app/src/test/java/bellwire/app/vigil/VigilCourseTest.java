package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.InventedVigils;
import bellwire.app.job.JobFile;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilReader;
import bellwire.app.vigil.VigilPicture.Lane;
import bellwire.app.vigil.VigilPicture.State;
import bellwire.app.vigil.VigilPicture.Stretch;
import bellwire.link.Message.KeepVigil.Kind;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** That a chart's picture is no larger than the chart, and hides nothing that was read. */
class VigilCourseTest {
  private static final long SEED = 33;
  private static final int COLUMNS = 700;
  private static final double HOURS = 2;

  @TempDir Path directory;

  private Path job() {
    return directory.resolve("job.bellwire");
  }

  private static VigilCourse taken(Path file, long vigil) throws Exception {
    VigilCourse course = new VigilCourse(file, vigil);
    while (!course.refresh(share -> {}, () -> false)) {
      // Goes on.
    }
    return course;
  }

  @Test
  void whatWasOpenIsInItsColumnAndNowhereElse() throws Exception {
    System.out.println("VigilCourseTest: seed=" + SEED);
    try (JobFile file = JobFile.open(job())) {
      InventedVigils.continuity(file, job(), HOURS, SEED);
    }
    Random random = new Random(SEED);
    try (VigilCourse course = taken(job(), 1);
        VigilReader reader = VigilReader.open(job(), 1)) {
      long last = course.lastMicros();
      for (int again = 0; again < 20; again++) {
        long length = (long) (last * Math.pow(10, -4 * random.nextDouble()));
        long from = (long) (random.nextDouble() * (last - length));
        VigilPicture picture = course.picture(from, from + length, COLUMNS);
        compare(picture, reader, from, from + length);
      }
    }
  }

  private static void compare(VigilPicture picture, VigilReader reader, long from, long to)
      throws Exception {
    Stream stream = reader.streams().get(0);
    long slack = 2 * (to - from) / COLUMNS + 2 * stream.periodMicros();
    reader.samples(
        stream,
        from + slack,
        to - slack,
        (first, count, value, latches) -> {
          for (Lane lane : picture.lanes()) {
            boolean open = (value >>> lane.number() & 1) != 0;
            boolean shown = overlaps(lane, first, first + count * 1000L, 0);
            assertThat(!open || shown).as("%s at %d", lane.name(), first).isTrue();
          }
        });
    for (Lane lane : picture.lanes()) {
      assertThat(lane.stretches().size()).isLessThanOrEqualTo(COLUMNS);
      assertThat(lane.events().size()).isLessThanOrEqualTo(COLUMNS + 1);
      for (Stretch stretch : lane.stretches()) {
        boolean[] any = new boolean[1];
        reader.samples(
            stream,
            stretch.fromMicros() - slack,
            stretch.toMicros() + slack,
            (first, count, value, latches) ->
                any[0] |= ((value | latches) >>> lane.number() & 1) != 0);
        assertThat(any[0]).as("%s %s", lane.name(), stretch).isTrue();
      }
    }
  }

  private static boolean overlaps(Lane lane, long from, long to, long slack) {
    return lane.stretches().stream()
        .anyMatch(s -> s.fromMicros() <= to + slack && s.toMicros() >= from - slack);
  }

  @Test
  void everyStoredEventIsMarkedAndEveryGapShown() throws Exception {
    InventedVigils.Day day;
    try (JobFile file = JobFile.open(job())) {
      day = InventedVigils.continuity(file, job(), HOURS, SEED);
    }
    try (VigilCourse course = taken(job(), 1)) {
      VigilPicture all = course.picture(0, course.lastMicros() + 1, COLUMNS);
      long marked =
          all.lanes().stream().flatMap(l -> l.events().stream()).mapToLong(e -> e.count()).sum();
      assertThat(marked).isEqualTo(day.events());
      assertThat(all.gaps()).hasSize(1);
      assertThat(all.gaps().get(0).toMicros() - all.gaps().get(0).fromMicros())
          .isBetween(day.lengthMicros() / 40 - 2000, day.lengthMicros() / 40 + 2000);
    }
  }

  @Test
  void callsAreShownWithTheirLevels() throws Exception {
    try (JobFile file = JobFile.open(job())) {
      InventedVigils.calls(file, job(), 0.5, SEED);
    }
    try (VigilCourse course = taken(job(), 1);
        VigilReader reader = VigilReader.open(job(), 1)) {
      VigilPicture all = course.picture(0, course.lastMicros() + 1, COLUMNS);
      int[] samples = new int[1];
      reader.samples(
          reader.streams().get(0),
          1_000_000,
          course.lastMicros() - 1_000_000,
          (first, count, value, latches) -> {
            long middle = first + count * 500L;
            for (Lane lane : all.lanes()) {
              boolean on = (value >>> lane.number() & 1) != 0;
              boolean shown =
                  lane.stretches().stream()
                      .anyMatch(
                          s ->
                              s.state() != State.REST
                                  && s.fromMicros() <= middle
                                  && s.toMicros() > middle);
              if (count > 20_000) {
                assertThat(shown).as("%s at %d", lane.name(), middle).isEqualTo(on);
                samples[0]++;
              }
            }
          });
      assertThat(samples[0]).isGreaterThan(100);
    }
  }

  @Test
  void aTrendsCourseHasTheResistancesThatTheStatementRestsOn() throws Exception {
    String bench = SimulatedVigil.cable(4, "tie", SEED).replace("intermittent:\n", "");
    SimulatedVigil.keep(Kind.TREND, bench, 15, 0.05, job(), (run, micros) -> {});
    StoredVigil stored =
        VigilLoader.load(job(), 1, StoredVigil.Part.ALL, Counting.EACH, share -> {});
    try (VigilCourse course = taken(job(), 1)) {
      VigilPicture all = course.picture(0, course.lastMicros() + 1, 40);
      for (Lane lane : all.lanes()) {
        double[] own =
            stored.series().stream()
                .filter(s -> s.port() == lane.number())
                .findFirst()
                .orElseThrow()
                .ohms();
        double least = java.util.Arrays.stream(own).min().orElseThrow();
        double greatest = java.util.Arrays.stream(own).max().orElseThrow();
        assertThat(lane.course().points()).isBetween(10, 43);
        assertThat(java.util.Arrays.stream(lane.course().low()).min().orElseThrow())
            .isEqualTo(least);
        assertThat(java.util.Arrays.stream(lane.course().high()).max().orElseThrow())
            .isEqualTo(greatest);
      }
    }
  }
}
