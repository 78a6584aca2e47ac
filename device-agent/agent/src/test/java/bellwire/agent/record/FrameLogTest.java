package bellwire.agent.record;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Message;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FrameLogTest {
  private static final long MUCH = 64 << 20;
  private static final long SMALL = 1 << 20;

  @TempDir Path directory;

  private LogBench bench(long boot) {
    return new LogBench(directory, MUCH, boot, 100);
  }

  @Test
  void whatMemoryCanNotHoldIsReadBack() {
    LogBench bench = bench(7);
    bench.log.recording(true);
    bench.stream(5000, 100);
    assertThat(bench.log.oldest()).isZero();
    assertThat(bench.log.dropped()).isZero();
    for (long i = 0; i < 5000; i++) {
      assertThat(bench.get(i)).as("sequence=%d", i).isEqualTo(LogBench.frame(7, i));
    }
    // And again from within, as after a link that was cut.
    for (long i = 3210; i < 3300; i++) {
      assertThat(bench.get(i)).as("sequence=%d", i).isEqualTo(LogBench.frame(7, i));
    }
  }

  @Test
  void withoutRecordingMemoryIsAllThereIs() throws IOException {
    LogBench bench = bench(7);
    bench.stream(300, 100);
    assertThat(bench.log.oldest()).isEqualTo(200);
    assertThat(bench.log.dropped()).isEqualTo(200);
    assertThat(LogBench.segments(directory)).isEmpty();
    assertThat(bench.log.diskBytes()).isPositive();
  }

  @Test
  void whatTheHostHasIsDeletedAtOnce() throws IOException {
    LogBench bench = new LogBench(directory, SMALL, 7, 100);
    bench.log.recording(true);
    bench.stream(4000, 100);
    assertThat(LogBench.segments(directory)).hasSizeGreaterThan(2);
    bench.log.releaseBelow(3999);
    bench.run(2_000_000);
    assertThat(LogBench.segments(directory)).hasSize(1);
    bench.log.recording(false);
    bench.log.releaseBelow(4000);
    bench.run(2_000_000);
    assertThat(LogBench.segments(directory)).isEmpty();
    bench.stream(10, 100); // no longer recorded
    assertThat(LogBench.segments(directory)).isEmpty();
  }

  /** What follows a vigil is recorded while the vigil itself still waits on the disk. */
  @Test
  void recordingEndsWhenTheHostHasAll() throws IOException {
    LogBench bench = bench(7);
    bench.log.recording(true);
    bench.stream(200, 100);
    bench.log.recording(false);
    bench.stream(1000, 100);
    assertThat(bench.log.oldest()).isZero();
    assertThat(bench.log.dropped()).isZero();
    assertThat(bench.get(1000)).isEqualTo(LogBench.frame(7, 1000));
  }

  @Test
  void earlierBootsAreHandedOverInOrderAndDeletedOnceAcknowledged() throws IOException {
    for (long boot : new long[] {9, 4, 6}) { // in the order of time, not of identifiers
      LogBench bench = bench(boot);
      bench.add(3); // before the vigil: not recorded, not missing
      bench.log.recording(true);
      bench.stream(50, 100);
      bench.log.releaseBelow(boot == 4 ? 20 : 0);
      bench.log.close();
    }
    LogBench last = bench(11);
    List<Message.Recorded> all = last.earlier(false);
    assertThat(all.stream().filter(each -> each.boot() == 9).map(Message.Recorded::sequence))
        .containsExactlyElementsOf(LongStream.range(3, 53).boxed().toList());
    assertThat(all.stream().filter(each -> each.boot() == 4).map(Message.Recorded::sequence))
        .containsExactlyElementsOf(LongStream.range(20, 53).boxed().toList());
    assertThat(all.stream().map(Message.Recorded::boot).distinct()).containsExactly(9L, 4L, 6L);
    assertThat(all).allMatch(LogBench::isRight).allMatch(each -> each.lost() == 0);
    assertThat(all.get(0).left()).isEqualTo(all.size() - 1);
    assertThat(all.get(all.size() - 1).left()).isZero();
    assertThat(LogBench.segments(directory)).hasSize(3);
    last.log.releaseBelow(60); // all of boot 9 and some of boot 4
    last.run(1_000_000);
    assertThat(LogBench.segments(directory)).hasSize(2);
    last.log.close();

    LogBench then = bench(12);
    List<Message.Recorded> rest = then.earlier(true);
    assertThat(rest).hasSize(all.size() - 60).allMatch(LogBench::isRight);
    assertThat(rest.get(0).sequence()).isEqualTo(all.get(60).sequence());
    assertThat(rest).allMatch(each -> each.lost() == 0);
    assertThat(LogBench.segments(directory)).isEmpty();
  }

  /** A vigil goes on while the last one is handed over; then the power fails again. */
  @Test
  void carriedFramesAreNeitherRecordedTwiceNorMissed() {
    LogBench first = bench(1);
    first.log.recording(true);
    first.stream(80, 100);
    first.log.close();
    LogBench second = bench(2);
    second.log.recording(true);
    int carried = 0;
    long firstCarried = 0;
    for (int i = 0; i < 400; i++) {
      second.add(1);
      second.step();
      Message.Recorded earlier = i % 3 == 0 ? second.log.pollEarlier() : null;
      if (earlier != null) {
        firstCarried = carried == 0 ? second.log.next() : firstCarried;
        carried++;
        second.send(earlier);
      }
    }
    assertThat(carried).isEqualTo(80);
    assertThat(second.log.oldest()).isZero();
    assertThat(LogBench.decode(second.get(firstCarried)).message())
        .isInstanceOf(Message.Recorded.class); // though memory holds 100 frames
    second.log.close();
    List<Message.Recorded> all = bench(3).earlier(true);
    assertThat(all.stream().filter(each -> each.boot() == 1)).hasSize(80);
    assertThat(all.stream().filter(each -> each.boot() == 2)).hasSize(400);
    assertThat(all).allMatch(each -> each.lost() == 0);
    assertThat(all.get(479).left()).isZero();
  }

  @Test
  void aFullRecordDropsTheOldestAndSaysSo() {
    LogBench first = new LogBench(directory, SMALL, 1, 100);
    first.log.recording(true);
    first.stream(16_000, 100);
    long dropped = first.log.dropped();
    assertThat(dropped).isPositive().isEqualTo(first.log.oldest());
    assertThat(first.troubles).isNotEmpty().allMatch(words -> words.startsWith("it is full"));
    assertThat(first.log.diskBytes()).isLessThan(SMALL / 8);
    assertThat(first.get(dropped)).isEqualTo(LogBench.frame(1, dropped));
    first.log.close();
    LogBench second = new LogBench(directory, SMALL, 2, 100);
    List<Message.Recorded> all = second.earlier(true);
    assertThat(all).hasSize((int) (16_000 - dropped)).allMatch(LogBench::isRight);
    assertThat(all.get(0).lost()).isEqualTo(dropped);
    assertThat(all.stream().mapToLong(Message.Recorded::lost).sum()).isEqualTo(dropped);
  }

  /** Memory overtakes a disk that hangs: what both lack is passed over once it is its turn. */
  @Test
  void whatASlowDiskMissesIsCountedAndPassedOver() {
    LogBench bench = bench(7);
    bench.log.recording(true);
    bench.stream(500, 100);
    bench.add(10_000); // the disk does not come to anything
    bench.stream(500, 100);
    long from = 500;
    while (bench.get(from) != null) {
      from++;
    }
    bench.log.releaseBelow(from);
    long to = bench.log.oldest();
    assertThat(to).isGreaterThan(from);
    assertThat(bench.log.dropped()).isEqualTo(to - from);
    for (long i = to; i < 11_000; i++) {
      assertThat(bench.get(i)).as("sequence=%d", i).isEqualTo(LogBench.frame(7, i));
    }
    bench.log.releaseBelow(from + 1); // an old acknowledgement
    bench.log.close();
    List<Message.Recorded> all = bench(8).earlier(true);
    assertThat(all.get(0).sequence()).isEqualTo(to);
    assertThat(all).hasSize((int) (11_000 - to));
  }

  @Test
  void aDiskThatCanNotBeWrittenIsToldOnceAndUsedWhenItCan() throws IOException {
    Path file = directory.resolve("record");
    Files.writeString(file, "no directory");
    LogBench bench = new LogBench(file, MUCH, 7, 100);
    bench.log.recording(true);
    bench.stream(90, 10);
    bench.run(100_000_000);
    assertThat(bench.troubles).hasSize(1);
    assertThat(bench.troubles.get(0)).startsWith("nothing can be written to " + file);
    assertThat(bench.log.diskBytes()).isZero();
    Files.delete(file);
    bench.run(31_000_000);
    assertThat(bench.log.diskBytes()).isPositive();
    bench.stream(500, 100);
    assertThat(bench.log.dropped()).isZero();
    assertThat(bench.get(0)).isEqualTo(LogBench.frame(7, 0));
  }

  @Test
  void twoAgentsDoNotShareARecord() {
    LogBench one = bench(1);
    one.step();
    LogBench other = bench(2);
    other.run(1_000_000);
    assertThat(other.troubles).hasSize(1);
    assertThat(other.troubles.get(0)).contains("another agent is using it");
    one.log.close();
    other.run(31_000_000);
    assertThat(other.log.diskBytes()).isPositive();
  }

  /** A power cut leaves any part of what was written last. */
  @Test
  void atAnyLengthOfTheFileAllWholeBlocksAreFound() throws IOException {
    LogBench written = bench(1);
    written.log.recording(true);
    written.stream(60, 10);
    written.log.close();
    Path file = LogBench.segments(directory).get(0);
    byte[] whole = Files.readAllBytes(file);
    Files.deleteIfExists(directory.resolve("released"));
    int before = 0;
    int at = whole.length - 200;
    for (int length = 0; length <= whole.length; length += length < 200 || length > at ? 1 : 31) {
      Files.write(file, Arrays.copyOf(whole, length));
      LogBench bench = bench(2);
      bench.run(300_000);
      int found = 0;
      for (Message.Recorded each = bench.log.pollEarlier();
          each != null;
          each = bench.log.pollEarlier()) {
        assertThat(each.sequence()).as("length=%d", length).isEqualTo(found);
        assertThat(LogBench.isRight(each)).isTrue();
        found++;
      }
      assertThat(found).as("length=%d", length).isGreaterThanOrEqualTo(before);
      assertThat(bench.troubles).as("length=%d", length).isEmpty();
      before = found;
      bench.log.abandon();
    }
    assertThat(before).isEqualTo(60);
  }

  /**
   * A changed bit costs its block at most; no frame comes out wrong, and what is missing is told.
   */
  @Test
  void damageIsPassedOverAndTold() throws IOException {
    long seed = 23;
    System.out.println("FrameLogTest: seed=" + seed);
    Random random = new Random(seed);
    LogBench written = bench(1);
    written.log.recording(true);
    written.stream(200, 10);
    written.log.close();
    Path file = LogBench.segments(directory).get(0);
    byte[] whole = Files.readAllBytes(file);
    Files.deleteIfExists(directory.resolve("released"));
    int harmed = 0;
    for (int i = 0; i < 100; i++) {
      byte[] damaged = whole.clone();
      int at = random.nextInt(damaged.length);
      damaged[at] ^= (byte) (1 << random.nextInt(8));
      Files.write(file, damaged);
      LogBench bench = bench(2);
      List<Message.Recorded> all = bench.earlier(false);
      assertThat(all).as("at=%d", at).allMatch(LogBench::isRight);
      long next = 0;
      for (Message.Recorded each : all) {
        assertThat(each.sequence() - each.lost()).as("at=%d", at).isEqualTo(next);
        next = each.sequence() + 1;
      }
      assertThat(all.size()).isGreaterThanOrEqualTo(180);
      if (next == 200 && all.size() < 200) {
        harmed++;
        assertThat(bench.troubles).as("at=%d", at).hasSize(1);
        assertThat(bench.troubles.get(0)).startsWith("what was recorded before is damaged");
      }
      assertThat(all.get(all.size() - 1).left()).isZero();
      bench.log.abandon();
    }
    assertThat(harmed).isGreaterThan(75);
  }
}
