package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.app.job.Overview.Column;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The store against a plain list of the same samples. */
class VigilStoreTest {
  private static final long TICK_MICROS = 1000;
  private static final long CODE_MICROS = 50_000;

  private record Sample(long micros, int value, int latches) {}

  @TempDir Path directory;
  private long nanos;

  @Test
  void everySampleComesBackAndEveryOverviewIsExact() throws Exception {
    long seed = 61;
    System.out.println("VigilStoreTest: seed=" + seed);
    Random random = new Random(seed);
    Path file = directory.resolve("job.bellwire");
    List<Sample> words = new ArrayList<>();
    List<Sample> codes = new ArrayList<>();
    long vigil = 0;
    long micros = 7_000_000_000L;
    for (int part = 0; part < 4; part++) {
      try (JobFile job = JobFile.open(file)) {
        VigilStore store = part == 0 ? start(job) : job.resumeVigil(vigil, () -> nanos);
        vigil = store.vigil();
        Stream ports = part == 0 ? store.addWords("ports", TICK_MICROS) : store.streams().get(0);
        Stream p3 = part == 0 ? store.addCodes("P3", CODE_MICROS) : store.streams().get(1);
        micros = feed(store, ports, p3, micros, random, words, codes);
        if (part % 2 == 0) {
          store.close();
        } else {
          store.commit();
        }
        try (VigilReader reader = VigilReader.open(file, vigil)) {
          assertSame(reader, ports, words);
          assertSame(reader, p3, codes);
          for (int i = 0; i < 30; i++) {
            assertOverview(reader, ports, words, random);
            assertOverview(reader, p3, codes, random);
          }
        }
      }
    }
    assertThat(words.size()).isGreaterThan(1_000_000);
  }

  /** Some twelve minutes, with chatter, latches, a change of level and lost stretches. */
  private long feed(
      VigilStore store,
      Stream ports,
      Stream p3,
      long start,
      Random random,
      List<Sample> words,
      List<Sample> codes)
      throws Exception {
    long micros = start;
    int level = random.nextInt(1 << 23) - (1 << 22);
    for (int run = 0; run < 4000; run++) {
      boolean chatter = random.nextInt(4) == 0;
      int ticks = 1 + random.nextInt(chatter ? 20 : 400);
      int word = chatter ? random.nextInt(1 << 17) : 0x1FFFF;
      int latches = random.nextInt(50) == 0 ? 1 << random.nextInt(17) : 0;
      store.appendTicks(ports, micros, ticks, word, latches);
      for (int i = 0; i < ticks; i++) {
        long at = micros + i * TICK_MICROS;
        words.add(new Sample(at, word, latches));
        if (at % CODE_MICROS == 0) {
          int code = level + (int) (30 * random.nextGaussian());
          long jittered = at + random.nextInt(200);
          store.appendCode(p3, jittered, code);
          codes.add(new Sample(jittered, code, 0));
        }
      }
      nanos += ticks * TICK_MICROS * 100;
      micros += ticks * TICK_MICROS + (random.nextInt(500) == 0 ? random.nextInt(9_000_000) : 0);
    }
    return micros;
  }

  private VigilStore start(JobFile job) throws JobFileException {
    return job.startVigil(
        Asked.vigil("continuity"), 1_750_000_000_000_000L, 7_000_000_000L, () -> nanos);
  }

  private static void assertSame(VigilReader reader, Stream stream, List<Sample> expected)
      throws Exception {
    List<Sample> read = new ArrayList<>();
    assertThat(
            reader.samples(
                stream,
                0,
                Long.MAX_VALUE,
                (first, count, value, latches) -> {
                  for (int i = 0; i < count; i++) {
                    read.add(new Sample(first + i * stream.periodMicros(), value, latches));
                  }
                }))
        .isEmpty();
    assertThat(read.equals(expected)).as(stream.name()).isTrue();
  }

  private static void assertOverview(
      VigilReader reader, Stream stream, List<Sample> samples, Random random) throws Exception {
    long begin = samples.get(0).micros();
    long length = samples.get(samples.size() - 1).micros() - begin;
    long window = (long) (length * Math.pow(10, -4 * random.nextDouble())) + 1000;
    long from = begin + (long) ((length - window) * random.nextDouble()) - 500;
    int columns = 1 + random.nextInt(100);
    Overview overview = reader.overview(stream, from, from + window, columns);
    assertThat(overview.unreadable()).isEmpty();
    assertThat(overview.columns()).hasSize(columns);
    double half = (double) window / columns / 2;
    assertThat(overview.columns().get(0).fromMicros()).isBetween(from - (long) half, from);
    int next = firstFrom(samples, overview.columns().get(0).fromMicros());
    for (Column column : overview.columns()) {
      int low = stream.kind() == Stream.Kind.WORDS ? -1 : Integer.MAX_VALUE;
      int high = stream.kind() == Stream.Kind.WORDS ? 0 : Integer.MIN_VALUE;
      int latches = 0;
      int count = 0;
      for (; next < samples.size() && samples.get(next).micros() < column.toMicros(); next++) {
        Sample s = samples.get(next);
        low = stream.kind() == Stream.Kind.WORDS ? low & s.value() : Math.min(low, s.value());
        high = stream.kind() == Stream.Kind.WORDS ? high | s.value() : Math.max(high, s.value());
        latches |= s.latches();
        count++;
      }
      if (count > 0) {
        assertThat(column)
            .isEqualTo(
                new Column(
                    column.fromMicros(),
                    column.toMicros(),
                    true,
                    low,
                    high,
                    latches,
                    column.gapShare()));
      }
      assertGapShare(column, reader.gaps(stream, column.fromMicros(), column.toMicros()));
    }
  }

  private static void assertGapShare(Column column, List<Gap> gaps) {
    double missing = 0;
    for (Gap gap : gaps) {
      missing +=
          Math.min(gap.toMicros(), column.toMicros())
              - Math.max(gap.fromMicros(), column.fromMicros());
    }
    assertThat(column.gapShare())
        .isCloseTo(
            missing / (column.toMicros() - column.fromMicros()),
            org.assertj.core.data.Offset.offset(1e-9));
  }

  private static int firstFrom(List<Sample> samples, long micros) {
    int low = 0;
    int high = samples.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (samples.get(middle).micros() < micros) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  @Test
  void aLatchOfOneTickShowsInTheOverviewOfADay() throws Exception {
    Path file = directory.resolve("day.bellwire");
    long day = 86_400_000_000L;
    long at = 40_000_123_000L;
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = start(job);
      Stream ports = store.addWords("ports", TICK_MICROS);
      store.appendTicks(ports, 0, (int) (at / TICK_MICROS), 0xFFFF, 0);
      store.appendTicks(ports, at, 1, 0xFFFF, 1 << 4);
      store.appendTicks(ports, at + 1000, (int) ((day - at) / TICK_MICROS) - 1, 0xFFFF, 0);
      store.close();
      try (VigilReader reader = VigilReader.open(file, store.vigil())) {
        List<Column> latched =
            reader.overview(ports, 0, day, 1000).columns().stream()
                .filter(c -> c.latches() != 0)
                .toList();
        assertThat(latched).hasSize(1);
        assertThat(latched.get(0).latches()).isEqualTo(1 << 4);
        assertThat(latched.get(0).low()).isEqualTo(0xFFFF);
        assertThat(at).isBetween(latched.get(0).fromMicros(), latched.get(0).toMicros() - 1);
      }
    }
  }

  @Test
  void nothingIsAcknowledgedBeforeItsCommitAndACommitComesWithinASecond() throws Exception {
    try (JobFile job = JobFile.open(directory.resolve("ack.bellwire"))) {
      VigilStore store = start(job);
      Stream ports = store.addWords("ports", TICK_MICROS);
      store.appendTicks(ports, 0, 999, 1, 0);
      assertThat(store.storedBefore(ports)).isEqualTo(Long.MIN_VALUE);
      nanos += 999_999_999;
      store.commitIfDue();
      assertThat(store.storedBefore(ports)).isEqualTo(Long.MIN_VALUE);
      nanos += 1;
      store.commitIfDue();
      assertThat(store.storedBefore(ports)).isEqualTo(998_001);
      // A second that is counted from what waits, not from the last commit.
      nanos += 5_000_000_000L;
      store.appendTicks(ports, 999_000, 1, 1, 0);
      assertThat(store.storedBefore(ports)).isEqualTo(998_001);
    }
  }

  @Test
  void whatAResumedLinkRepeatsIsPassedOver() throws Exception {
    Path file = directory.resolve("again.bellwire");
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = start(job);
      Stream ports = store.addWords("ports", TICK_MICROS);
      store.appendTicks(ports, 0, 100, 1, 0);
      store.commit();
      store.appendTicks(ports, 50_000, 100, 1, 2);
      store.appendTicks(ports, 20_000, 30, 0, 0);
      store.commit();
      List<Sample> expected = new ArrayList<>();
      for (int i = 0; i < 150; i++) {
        expected.add(new Sample(i * TICK_MICROS, 1, i < 100 ? 0 : 2));
      }
      try (VigilReader reader = VigilReader.open(file, store.vigil())) {
        assertSame(reader, ports, expected);
        assertThat(reader.gaps(ports, 0, Long.MAX_VALUE)).isEmpty();
      }
    }
  }

  @Test
  void aGapIsAnEntryWithItsReasonAndTheRestOfItAnother() throws Exception {
    Path file = directory.resolve("gap.bellwire");
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = start(job);
      Stream ports = store.addWords("ports", TICK_MICROS);
      store.appendTicks(ports, 0, 10, 1, 0);
      store.gap(ports, 50_000, "link cut");
      store.close();
    }
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.resumeVigil(1, () -> nanos);
      Stream ports = store.streams().get(0);
      store.appendTicks(ports, 80_000, 10, 1, 0);
      store.close();
      try (VigilReader reader = VigilReader.open(file, 1)) {
        assertThat(reader.gaps(ports, 0, Long.MAX_VALUE))
            .containsExactly(
                new Gap(10_000, 50_000, "link cut"), new Gap(50_000, 80_000, "missing"));
        Column all = reader.overview(ports, 0, 100_000, 1).columns().get(0);
        assertThat(all.gapShare()).isEqualTo(0.7);
      }
    }
  }

  @Test
  void eventsAndMarksComeBackAndAnEventFoundAgainReplacesItself() throws Exception {
    Path file = directory.resolve("events.bellwire");
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = start(job);
      VigilEvent opened = new VigilEvent(3, 0, 4_000, 5_000, 9_000, 10_000, 2, false, true, false);
      VigilEvent latched =
          new VigilEvent(2, 1 << 16, 4_000, 5_000, 5_000, 6_000, 1, true, false, true);
      store.event(new VigilEvent(3, 0, 4_000, 5_000, 6_000, 7_000, 1, false, true, true));
      store.event(latched);
      store.event(opened);
      store.mark(new Mark(5_500, "shook the cable"));
      store.close();
      try (VigilReader reader = VigilReader.open(file, store.vigil())) {
        assertThat(reader.events()).containsExactly(latched, opened);
        assertThat(reader.marks()).containsExactly(new Mark(5_500, "shook the cable"));
      }
    }
  }

  @Test
  void mistakesOfTheCallerAreNamed() throws Exception {
    try (JobFile job = JobFile.open(directory.resolve("mistakes.bellwire"))) {
      VigilStore store = start(job);
      Stream p1 = store.addCodes("P1", CODE_MICROS);
      assertThatThrownBy(() -> store.appendTicks(p1, 0, 1, 1, 0))
          .hasMessageEndingWith("kind=CODES");
      assertThatThrownBy(() -> store.appendCode(p1, 0, 1 << 23)).hasMessageEndingWith("=8388608");
      store.appendCode(p1, 0, 1);
      assertThatThrownBy(() -> store.appendCode(p1, 24_000, 1)).hasMessageEndingWith("=24000");
      assertThatThrownBy(() -> store.addWords("ports", 100)).hasMessageEndingWith("=100");
    }
  }
}
