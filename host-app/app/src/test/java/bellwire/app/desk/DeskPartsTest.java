package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.app.drawing.Spot;
import java.awt.geom.Rectangle2D;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.concurrent.CompletionException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Parts of the window that need no display. */
class DeskPartsTest {

  @Test
  void aFootIsExactly0_3048Metres() {
    // International yard and pound agreement, 1959; NIST SP 811 (2008), B.6.
    assertThat(Units.FEET.parseMetres("100").getAsDouble()).isCloseTo(30.48, within(1e-12));
    assertThat(Units.FEET.parseMetres("12 m").getAsDouble()).isEqualTo(12);
    assertThat(Units.METRES.parseMetres("80 ft").getAsDouble()).isCloseTo(24.384, within(1e-12));
    assertThat(Units.FEET.length(30.48)).isEqualTo("100.0 ft");
    assertThat(Units.METRES.parseMetres("-3")).isEmpty();
    assertThat(Units.METRES.parseMetres("long")).isEmpty();
    assertThat(Units.METRES.parseMetres("NaN")).isEmpty();
  }

  @Test
  void editsAreTakenBackNewestFirstAndANewOneEndsWhatCouldBeDoneAgain() {
    List<String> log = new ArrayList<>();
    Undo undo = new Undo();
    undo.did("a", "one", () -> log.add("-1"), () -> log.add("+1"));
    undo.did("b", "two", () -> log.add("-2"), () -> log.add("+2"));
    assertThat(undo.undo().orElseThrow().words()).isEqualTo("two");
    undo.undo();
    undo.redo();
    assertThat(log).containsExactly("-2", "-1", "+1");
    undo.did("c", "three", () -> log.add("-3"), () -> log.add("+3"));
    assertThat(undo.redo()).isEmpty();
    for (int i = 0; i < 150; i++) {
      undo.did("c", "more", () -> {}, () -> {});
    }
    int back = 0;
    while (undo.undo().isPresent()) {
      back++;
    }
    assertThat(back).isEqualTo(100);
  }

  @Test
  void troubleStaysANoteGivesWay() {
    Notices notices = new Notices();
    notices.note("one");
    notices.trouble("bad");
    notices.note("two");
    notices.trouble("bad");
    assertThat(notices.shown()).extracting(Notices.Notice::words).containsExactly("two", "bad");
    notices.trouble(new CompletionException(new IllegalStateException("file a: worn out")));
    assertThat(notices.shown().get(2).words()).isEqualTo("file a: worn out");
    for (int i = 0; i < 40; i++) {
      notices.trouble("bad " + i);
    }
    assertThat(notices.shown()).hasSize(12);
  }

  @Test
  void whatIsWrittenToRememberIsReadBack(@TempDir Path directory) throws Exception {
    Map<String, String> values =
        Map.of("a b", "line\nline", "c=d", "#x: \\ é", "e", " leads and trails ");
    Properties read = new Properties();
    read.load(new StringReader(LeftAs.text(values)));
    assertThat(read).containsExactlyInAnyOrderEntriesOf(new java.util.HashMap<>(values));

    Path file = directory.resolve("deep/desk.properties");
    DeskPrefs prefs = DeskPrefs.read(file);
    prefs.put("percent", 150);
    for (int i = 0; i < 9; i++) {
      prefs.opened(directory.resolve("job " + i % 8));
    }
    prefs.save();
    DeskPrefs again = DeskPrefs.read(file);
    assertThat(again.number("percent", 100)).isEqualTo(150);
    assertThat(again.recent()).hasSize(6).doesNotHaveDuplicates();
    assertThat(again.recent().get(0)).isEqualTo(directory.resolve("job 0").toAbsolutePath());
    Files.writeString(file, "percent=\\uZZ");
    assertThat(DeskPrefs.read(file).number("percent", 100)).isEqualTo(100);
  }

  @Test
  void aToneHasItsPitchAndBeginsAndEndsInSilence() {
    byte[] bytes = Sounds.samples(Sounds.Tone.TICK);
    int crossings = 0;
    int before = 0;
    int loudest = 0;
    for (int i = 0; i < bytes.length; i += 2) {
      int value = (bytes[i] & 0xFF) | bytes[i + 1] << 8;
      if (before < 0 && value >= 0) {
        crossings++;
      }
      before = value;
      loudest = Math.max(loudest, Math.abs(value));
    }
    double seconds = bytes.length / 2 / 22050.0;
    assertThat(crossings / seconds).isCloseTo(980, within(15.0));
    assertThat(loudest).isBetween(8000, 9000);
    assertThat(Math.abs(before)).isLessThan(100);
  }

  @Test
  void arrowsGoToTheNearestSpotInTheirDirection() {
    Spot a = new Spot("a", new Rectangle2D.Double(0, 0, 10, 10), "");
    Spot right = new Spot("right", new Rectangle2D.Double(40, 2, 10, 10), "");
    Spot farRight = new Spot("far", new Rectangle2D.Double(90, 0, 10, 10), "");
    Spot below = new Spot("below", new Rectangle2D.Double(2, 40, 10, 10), "");
    List<Spot> spots = List.of(a, farRight, right, below);
    assertThat(DrawingKeys.next(spots, a, 1, 0)).contains(right);
    assertThat(DrawingKeys.next(spots, a, 0, 1)).contains(below);
    assertThat(DrawingKeys.next(spots, a, -1, 0)).isEmpty();
    assertThat(DrawingKeys.next(spots, below, 0, -1)).contains(a);
  }

  @Test
  void timeLeftIsSaidAsCoarselyAsItIsKnown() {
    assertThat(ProgressStrip.timeLeft(4)).isEqualTo("a few seconds left");
    assertThat(ProgressStrip.timeLeft(44)).isEqualTo("about 40 s left");
    assertThat(ProgressStrip.timeLeft(200)).isEqualTo("about 3 min left");
    assertThat(ProgressStrip.timeLeft(9000)).isEqualTo("about 2.5 h left");
    assertThat(ProgressStrip.timeLeft(Double.NaN)).isEqualTo("time left not known yet");
  }
}
