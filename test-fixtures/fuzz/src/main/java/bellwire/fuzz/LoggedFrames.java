package bellwire.fuzz;

import bellwire.agent.record.FrameLog;
import bellwire.agent.record.RecordSettings;
import bellwire.link.DataFrame;
import bellwire.link.DataRing;
import bellwire.link.FrameCodec;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** What an agent leaves on its disk. */
final class LoggedFrames {
  private LoggedFrames() {}

  static byte[] script() {
    Scratch scratch = new Scratch("log");
    try {
      record(scratch.directory(), 71);
      record(scratch.directory(), 72);
      ByteArrayOutputStream script = new ByteArrayOutputStream();
      for (Path file : files(scratch.directory())) {
        byte[] content = Files.readAllBytes(file);
        script.write(file.endsWith("released") ? 6 : 0);
        script.write(content.length);
        script.write(content.length >> 8);
        script.writeBytes(content);
      }
      return script.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void record(Path directory, long boot) {
    RecordSettings settings = new RecordSettings(directory, 1 << 20);
    FrameLog log = FrameLog.inStep(settings, boot, new DataRing(64, 1 << 20));
    log.recording(true);
    for (Message.Data message : MessageSeeds.data()) {
      if (!(message instanceof Message.Recorded)) {
        DataFrame frame = new DataFrame(log.next(), 1000 * log.next(), message);
        log.add(FrameCodec.encode(MessageCodec.encode(frame)));
      }
    }
    log.step(0);
    log.step(20_000_000);
    log.close();
  }

  private static List<Path> files(Path directory) throws IOException {
    try (Stream<Path> files = Files.list(directory)) {
      return files.filter(file -> !file.endsWith("lock")).sorted().toList();
    }
  }
}
