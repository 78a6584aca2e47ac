package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is kept with a vigil beside its samples: what was asked, how far, gaps, its end. */
class VigilFactsTest {
  private static final long TICK_MICROS = 1000;
  private static final long UNIX_MICROS = 1_750_000_000_000_000L;
  private static final long START_MICROS = 7_000_000_000L;

  private record Tick(long micros, int word, int latches, int code) {}

  @TempDir Path directory;
  private Path file;

  @BeforeEach
  void name() {
    file = directory.resolve("job.bellwire");
  }

  private static VigilStore start(JobFile job, Watched watched) throws JobFileException {
    return job.startVigil(watched, UNIX_MICROS, START_MICROS, () -> 0);
  }

  @Test
  void whatWasAskedForComesBack() throws Exception {
    Watched trend =
        new Watched(
            9, "trend", 0x7, 0, true, 5, 60_000_000, "A", "", Double.NaN, 720, 50, Map.of());
    try (JobFile job = JobFile.open(file)) {
      start(job, Asked.vigil("continuity")).close();
      start(job, trend).close();
    }
    try (VigilReader first = VigilReader.open(file, 1);
        VigilReader second = VigilReader.open(file, 2)) {
      assertThat(first.watched()).contains(Asked.vigil("continuity"));
      assertThat(second.watched()).contains(trend);
      assertThat(first.row().unixMicros(START_MICROS + 5)).isEqualTo(UNIX_MICROS + 5);
    }
  }

  @Test
  void aSourceCountsOnlyOnceItsSamplesAreCommitted() throws Exception {
    Source first = new Source(-5, 100, 17);
    Source earlierBoot = new Source(77, 40, -3);
    Source second = new Source(-5, 120, 17);
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = start(job, Asked.vigil("continuity"));
      Stream ports = store.addWords("ports", TICK_MICROS);
      store.appendTicks(ports, 0, 10, 0, 0);
      store.arrived(first);
      assertThat(store.source()).isEmpty();
      store.commit();
      assertThat(store.source()).contains(first);
      store.arrived(earlierBoot);
      store.commit();
      store.arrived(second);
      assertThat(store.source()).contains(earlierBoot);
      store.commit();
      assertThat(store.sources()).containsExactly(second, earlierBoot);
      // What was told and not committed is not in the file.
      store.arrived(new Source(-5, 999, 17));
    }
    try (JobFile job = JobFile.open(file);
        VigilReader reader = VigilReader.open(file, 1)) {
      assertThat(job.resumeVigil(1, () -> 0).sources()).containsExactly(second, earlierBoot);
      assertThat(reader.sources()).containsExactly(second, earlierBoot);
    }
  }

  @Test
  void anInterruptionIsAGapInEveryStreamAlsoBeforeItsFirstSample() throws Exception {
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = start(job, Asked.vigil("continuity"));
      Stream ports = store.addWords("ports", TICK_MICROS);
      Stream p3 = store.addCodes("P3", 50_000);
      store.appendTicks(ports, 0, 10, 0, 0);
      store.interrupted(8_000, 90_000, "ring overrun");
      store.close();
    }
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.resumeVigil(1, () -> 0);
      store.appendTicks(store.streams().get(0), 90_000, 10, 0, 0);
      store.appendCode(store.streams().get(1), 200_000, 5);
      store.close();
      try (VigilReader reader = VigilReader.open(file, 1)) {
        List<Stream> streams = reader.streams();
        assertThat(reader.gaps(streams.get(0), 0, Long.MAX_VALUE))
            .containsExactly(new Gap(10_000, 90_000, "ring overrun"));
        assertThat(reader.gaps(streams.get(1), 0, Long.MAX_VALUE))
            .containsExactly(
                new Gap(8_000, 90_000, "ring overrun"), new Gap(90_000, 200_000, "missing"));
      }
    }
  }

  @Test
  void aVigilIsUnderWayLeftOrEnded() throws Exception {
    assertThat(JobFile.isBeingWritten(file)).isFalse();
    try (JobFile job = JobFile.open(file)) {
      start(job, Asked.vigil("continuity")).close();
      assertThat(JobFile.isBeingWritten(file)).isTrue();
      // To look has not given the lock away.
      assertThatThrownBy(() -> JobFile.open(file)).hasMessageContaining("is being written");
    }
    assertThat(JobFile.isBeingWritten(file)).isFalse();
    assertThat(VigilReader.vigils(file).get(0).ending()).isEmpty();
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.resumeVigil(1, () -> 0);
      store.ended(START_MICROS, "trouble");
      store.ended(START_MICROS + 9, "stopped");
      assertThat(VigilReader.vigils(file).get(0).ending())
          .contains(new Ending(START_MICROS + 9, "stopped"));
    }
  }

  /** The agent's code counts readings: late ones shift it against the time, gaps to any other. */
  @Test
  void everyTicksGroupPatternComesBackThroughLateTicksGapsAndRepeats() throws Exception {
    long seed = 62;
    System.out.println("VigilFactsTest: seed=" + seed);
    Random random = new Random(seed);
    int codes = 5;
    List<Tick> expected = new ArrayList<>();
    long micros = START_MICROS;
    int code = 3;
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = start(job, Asked.vigil("touch"));
      Stream ports = store.addWords("ports", TICK_MICROS, codes);
      for (int run = 0; run < 3000; run++) {
        int ticks = 1 + random.nextInt(random.nextInt(50) == 0 ? 400_000 : 40);
        int word = random.nextInt(3) == 0 ? 1 << random.nextInt(16) : 0;
        int latches = random.nextInt(9) == 0 ? 1 << random.nextInt(16) : word;
        store.appendTicks(ports, micros, ticks, word, latches, code);
        for (int i = 0; i < ticks; i++) {
          expected.add(new Tick(micros + i * TICK_MICROS, word, latches, (code + i) % codes));
        }
        if (random.nextInt(20) == 0) {
          // A link that resumes sends it again, with what follows.
          store.appendTicks(ports, micros, ticks, word, latches, code);
        }
        if (random.nextInt(300) == 0) {
          store.commit();
        }
        micros += ticks * TICK_MICROS;
        code = (code + ticks) % codes;
        switch (random.nextInt(30)) {
          case 0 -> micros += 600 + random.nextInt(1200);
          case 1 -> {
            micros += random.nextInt(5_000_000);
            code = random.nextInt(codes);
          }
          case 2 -> code = random.nextInt(codes);
          default -> {}
        }
      }
      store.commit();
      assertSame(expected, codes);
    }
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.resumeVigil(1, () -> 0);
      assertThat(store.streams().get(0).codes()).isEqualTo(codes);
      store.close();
    }
    assertSame(expected, codes);
  }

  private void assertSame(List<Tick> expected, int codes) throws Exception {
    long from = START_MICROS + 1_234_567;
    List<Tick> read = new ArrayList<>();
    try (VigilReader reader = VigilReader.open(file, 1)) {
      assertThat(
              reader.coded(
                  reader.streams().get(0),
                  from,
                  Long.MAX_VALUE,
                  (first, count, word, latches, code) -> {
                    for (int i = 0; i < count; i++) {
                      read.add(
                          new Tick(first + i * TICK_MICROS, word, latches, (code + i) % codes));
                    }
                  }))
          .isEmpty();
    }
    assertThat(read.equals(expected.stream().filter(t -> t.micros() >= from).toList())).isTrue();
  }

  /** Written by version 1 and left by a kill: a row of the journal is not yet a block. */
  @Test
  void aFileOfVersion1IsBroughtUpToDateAndLosesNothing() throws Exception {
    try (var in = getClass().getResourceAsStream("version-1.bellwire")) {
      java.nio.file.Files.write(file, java.util.Objects.requireNonNull(in).readAllBytes());
    }
    assertThat(VigilReader.vigils(file))
        .containsExactly(new VigilRow(1, "continuity", UNIX_MICROS, 7_000_000, Optional.empty()));
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.resumeVigil(1, () -> 0);
      assertThat(store.sources()).isEmpty();
      store.appendTicks(store.streams().get(0), 8_600_000, 1, 0, 0);
      store.close();
    }
    try (VigilReader reader = VigilReader.open(file, 1)) {
      assertThat(reader.watched()).isEmpty();
      Stream ports = reader.streams().get(0);
      assertThat(reader.streams())
          .containsExactly(
              new Stream(ports.id(), Stream.Kind.WORDS, "ports", TICK_MICROS, 1, 1 << 20, 256),
              new Stream(2, Stream.Kind.CODES, "P3", 50_000, 1, 1 << 22, 256));
      List<String> runs = new ArrayList<>();
      reader.samples(
          ports, 0, Long.MAX_VALUE, (f, c, v, l) -> runs.add(f + "+" + c + ":" + v + "/" + l));
      assertThat(runs)
          .containsExactly(
              "7000000+500:0/0",
              "7500000+3:4/4",
              "7503000+497:0/0",
              "8500000+100:0/32",
              "8600000+1:0/0");
      List<Integer> codes = new ArrayList<>();
      reader.samples(reader.streams().get(1), 0, Long.MAX_VALUE, (f, c, v, l) -> codes.add(v));
      assertThat(codes).hasSize(20).startsWith(400_000, 400_001, 400_004, 400_002);
      assertThat(reader.gaps(ports, 0, Long.MAX_VALUE))
          .containsExactly(new Gap(8_000_000, 8_500_000, "link cut"));
      assertThat(reader.marks()).containsExactly(new Mark(7_600_000, "shook the cable"));
      assertThat(reader.events())
          .containsExactly(
              new VigilEvent(
                  2, 0, 7_500_000, 7_500_000, 7_502_000, 7_502_000, 1, false, true, true));
    }
  }
}
