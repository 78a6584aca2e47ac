package bellwire.agent.record;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.DataFrame;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A record whose checksums are right, and that no agent wrote: it used to end the agent. */
class PreparedRecordTest {
  private static final byte[] ITEM =
      MessageCodec.encode(new DataFrame(0, 0, new Message.Trouble("converter", "no answer")));

  @TempDir Path directory;

  private LogBench opened() {
    LogBench bench = new LogBench(directory, 64 << 20, 7, 100);
    bench.log.recording(true);
    bench.run(1_000_000);
    return bench;
  }

  @ParameterizedTest
  @CsvSource({"-5, 0", "0, 0", "-9223372036854775808, 9", "77, 4294967295"})
  void framesOfABootOrANumberThatCannotBeAreDamage(long boot, long first) throws Exception {
    Path file = Segment.path(directory, 1);
    byte[] header = new Segment(1, boot, file, 0).header();
    byte[] block = new Block(boot, first, true, List.of(ITEM, ITEM)).encode();
    Files.write(
        file, ByteBuffer.allocate(header.length + block.length).put(header).put(block).array());
    LogBench bench = opened();
    assertThat(bench.earlier(true)).isEmpty();
    bench.add(3);
    assertThat(bench.get(2)).isEqualTo(LogBench.frame(7, 2));
    assertThat(bench.troubles).isNotEmpty();
  }

  @Test
  void aNoteOfABootThatCannotBeIsDamage() throws Exception {
    ByteBuffer note =
        ByteBuffer.allocate(8 + 24 + 4)
            .order(ByteOrder.LITTLE_ENDIAN)
            .put(new byte[] {'B', 'w', 'R', 'e', 'l', '1', 0, 0})
            .putLong(-5)
            .putLong(0)
            .putLong(9);
    note.putInt(Block.checksum(note.array(), 0, 32));
    Files.write(directory.resolve("released"), note.array());
    LogBench bench = opened();
    assertThat(bench.earlier(true)).isEmpty();
    assertThat(bench.troubles).anyMatch(words -> words.contains("note of what the host has"));
  }
}
