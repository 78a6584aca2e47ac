package bellwire.fuzz;

import bellwire.agent.record.FrameLog;
import bellwire.agent.record.RecordSettings;
import bellwire.link.DataFrame;
import bellwire.link.DataRing;
import bellwire.link.FrameCodec;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.zip.CRC32C;

/**
 * What an agent finds on its disk: segments and the note of what the host has, checksums mended or
 * as they are. It begins to record, hands over what can be read, and says the rest in words.
 */
final class RecordTarget implements Target {
  private static final int MOST_FILES = 6;
  private static final int MOST_HANDED = 4000;
  private static final long STEP_MICROS = 100_000;
  private static final long BOOT = 1_000_001;
  private static final int HEADER_BYTES = 32;

  private final Scratch scratch = new Scratch("record");

  @Override
  public void take(byte[] input) throws IOException {
    scratch.empty();
    Script script = new Script(input);
    for (int i = 0; i < MOST_FILES && !script.atEnd(); i++) {
      write(script, i);
    }
    RecordSettings settings = new RecordSettings(scratch.directory(), 1 << 20);
    FrameLog log = FrameLog.inStep(settings, BOOT, new DataRing(64, 1 << 20));
    try {
      run(log);
    } finally {
      log.abandon();
    }
  }

  private void write(Script script, int which) throws IOException {
    int how = script.octet();
    byte[] content = script.bytes(script.pair());
    if ((how & 1) == 0) {
      mend(content);
    }
    boolean note = (how & 6) == 6;
    scratch.file(note ? "released" : String.format("%010d.frames", which), content);
  }

  /** Rights the checksums of a segment's head and of each block, and of the note's end. */
  private static void mend(byte[] file) {
    ByteBuffer in = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN);
    if (file.length >= 8 && file[0] == 'B' && file[2] == 'R' && file[5] == '1') {
      in.putInt(file.length - 4, crc(file, 0, file.length - 4));
      return;
    }
    if (file.length >= HEADER_BYTES) {
      in.putInt(28, crc(file, 0, 28));
    }
    for (int at = HEADER_BYTES; at <= file.length - HEADER_BYTES; at++) {
      if (file[at] == 'B' && file[at + 1] == 'w' && file[at + 2] == 'F') {
        int stored = in.getInt(at + 4);
        in.putInt(at + 28, crc(file, at, 28));
        long end = (long) at + HEADER_BYTES + stored;
        if (stored >= 0 && end + 4 <= file.length) {
          in.putInt((int) end, crc(file, at + HEADER_BYTES, stored));
        }
      }
    }
  }

  private static int crc(byte[] bytes, int from, int length) {
    CRC32C crc = new CRC32C();
    crc.update(bytes, from, length);
    return (int) crc.getValue();
  }

  private static void run(FrameLog log) {
    log.recording(true);
    long now = 0;
    int handed = 0;
    for (int idle = 0; idle < 30; idle++) {
      now += STEP_MICROS;
      log.step(now);
      for (String words = log.pollTrouble(); words != null; words = log.pollTrouble()) {
        Sentences.check(words);
      }
      Message.Recorded earlier = log.pollEarlier();
      while (earlier != null && handed < MOST_HANDED) {
        idle = 0;
        handed++;
        byte[] item = MessageCodec.encode(new DataFrame(log.next(), now, earlier));
        log.add(FrameCodec.encode(item));
        log.releaseBelow(log.next());
        earlier = log.pollEarlier();
      }
    }
    // And it records what comes.
    byte[] own = FrameCodec.encode(MessageCodec.encode(OWN));
    log.add(own);
    for (int i = 0; i < 30 && log.safeBelow() < log.next(); i++) {
      now += STEP_MICROS;
      log.step(now);
    }
    Finding.unless(log.safeBelow() == log.next(), "does not record any more");
    Finding.unless(Arrays.equals(own, log.get(log.next() - 1)), "another frame");
  }

  private static final DataFrame OWN = new DataFrame(0, 0, new Message.Trouble("converter", "no"));
}
