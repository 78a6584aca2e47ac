package bellwire.app.desk;

import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.LineUnavailableException;
import javax.sound.sampled.SourceDataLine;

/**
 * Short tones for somebody who looks at the cable and not at the screen. Off until switched on;
 * silent where the computer has no sound. Every tone goes with words on the screen.
 */
public final class Sounds {
  /** Told apart by rise, fall and number, not by pitch alone. */
  public enum Tone {
    /** Something is finished. Rises. */
    DONE(660, 880),
    /** The person is to act. Twice the same. */
    YOUR_TURN(780, 0, 780),
    /** Trouble. Falls. */
    TROUBLE(520, 390),
    /** Voltage where none may be. Four times high. */
    VOLTAGE(1040, 0, 1040, 0, 1040, 0, 1040),
    /** A step, a touch, an opening seen. */
    TICK(980);

    @SuppressWarnings("ImmutableEnumChecker") // List.of is.
    private final List<Integer> hertz;

    Tone(Integer... hertz) {
      this.hertz = List.of(hertz);
    }
  }

  private static final AudioFormat FORMAT = new AudioFormat(22050, 16, 1, true, false);
  private static final int PART_MILLIS = 110;
  private static final int WAITING = 4;

  private final ExecutorService player =
      new ThreadPoolExecutor(
          0,
          1,
          5,
          TimeUnit.SECONDS,
          new LinkedBlockingQueue<>(WAITING),
          task -> {
            Thread thread = new Thread(task, "desk-sound");
            thread.setDaemon(true);
            return thread;
          },
          new ThreadPoolExecutor.DiscardPolicy());
  private volatile boolean on;

  public boolean on() {
    return on;
  }

  public void on(boolean wanted) {
    on = wanted;
  }

  /** Returns at once. */
  public void play(Tone tone) {
    if (on) {
      player.execute(() -> sound(samples(tone)));
    }
  }

  private static void sound(byte[] samples) {
    try (SourceDataLine line = AudioSystem.getSourceDataLine(FORMAT)) {
      line.open(FORMAT);
      line.start();
      line.write(samples, 0, samples.length);
      line.drain();
    } catch (LineUnavailableException | IllegalArgumentException e) {
      // No sound on this computer: what it goes with is on the screen.
    }
  }

  /** 16 bits a sample, little-endian; each part swells and fades, so that nothing clicks. */
  static byte[] samples(Tone tone) {
    int part = (int) (FORMAT.getSampleRate() * PART_MILLIS / 1000);
    byte[] bytes = new byte[part * tone.hertz.size() * 2];
    for (int i = 0; i < part * tone.hertz.size(); i++) {
      int within = i % part;
      double swell = Math.sin(Math.PI * within / part);
      double phase = 2 * Math.PI * tone.hertz.get(i / part) * within / FORMAT.getSampleRate();
      int value = (int) Math.round(9000 * swell * Math.sin(phase));
      bytes[2 * i] = (byte) value;
      bytes[2 * i + 1] = (byte) (value >> 8);
    }
    return bytes;
  }
}
