package bellwire.app.desk.vigil;

import bellwire.analysis.vigil.VigilComparison;
import bellwire.app.desk.DeskContext;
import bellwire.app.survey.Cancelled;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.ComparisonText;
import bellwire.app.vigil.Counting;
import bellwire.app.vigil.StoredVigil;
import bellwire.app.vigil.StoredVigil.Part;
import bellwire.app.vigil.VigilLoader;
import bellwire.app.vigil.VigilText;
import java.awt.Font;
import java.awt.font.FontRenderContext;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.function.DoubleConsumer;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.Timer;
import org.jspecify.annotations.Nullable;

/**
 * What a vigil says, or two of them beside each other: worked out from the samples on a thread of
 * its own, which stops when something else is asked for.
 */
final class StatementPane extends JScrollPane {
  private static final long serialVersionUID = 1L;
  private static final int TYPE = 14;
  private static final int TELL_MILLIS = 200;

  private final transient DeskContext ctx;
  private final JTextArea text = new JTextArea(8, 60);
  private transient @Nullable Reading reading;
  private boolean closed;

  StatementPane(DeskContext ctx) {
    this.ctx = ctx;
    setViewportView(text);
    text.setName("vigil.statement");
    text.getAccessibleContext().setAccessibleName("Statement of the vigil");
    text.setEditable(false);
    text.setLineWrap(true);
    text.setWrapStyleWord(true);
    look();
    ctx.onLook(this::look);
    ctx.onClose(this::close);
  }

  private void look() {
    ChartBox.still(text); // a new look has a new caret
    text.setFont(new Font(Font.MONOSPACED, Font.PLAIN, (int) Math.round(TYPE * ctx.scale())));
  }

  private void close() {
    closed = true;
    stop();
  }

  private void stop() {
    Reading of = reading;
    if (of != null) {
      of.stopped = true;
      of.timer.stop();
    }
  }

  /** Shows what a vigil of a job says. */
  void statement(Path job, long vigil) {
    read("statement of vigil " + vigil, share -> lines(job, vigil, share));
  }

  /** Shows what changed from one vigil to another. */
  void comparison(Path job, long before, long after) {
    read("comparison", share -> lines(job, before, after, share));
  }

  /** What is worked out beside the event thread; told how far it is. */
  private interface Work {
    List<String> lines(DoubleConsumer share) throws Exception;
  }

  /** One that was asked for, until another is. */
  private final class Reading {
    final Timer timer;
    private volatile double done;
    private volatile boolean stopped;

    Reading(String what) {
      timer =
          new Timer(
              TELL_MILLIS,
              e ->
                  text.setText(
                      "reading the samples for the "
                          + what
                          + ", "
                          + Math.round(100 * done)
                          + " %"));
    }

    void share(double now) {
      if (stopped) {
        throw new Cancelled();
      }
      done = now;
    }

    void tell(List<String> lines) {
      timer.stop();
      if (!stopped) {
        text.setText(String.join("\n", lines));
        text.setCaretPosition(0);
      }
    }
  }

  private void read(String what, Work work) {
    stop();
    if (closed) {
      return;
    }
    Reading mine = new Reading(what);
    reading = mine;
    Font font = text.getFont();
    CompletableFuture<List<String>> lines = new CompletableFuture<>();
    Thread thread =
        new Thread(
            () -> {
              try {
                measured(List.of("0 %"), font);
                lines.complete(measured(work.lines(mine::share), font));
              } catch (Exception | Error e) {
                lines.completeExceptionally(e);
              }
            },
            "vigil-statement");
    thread.setDaemon(true);
    thread.setPriority(Thread.NORM_PRIORITY - 1);
    text.setText("");
    mine.timer.start();
    thread.start();
    ctx.later(
        lines, mine::tell, failure -> mine.tell(List.of(String.valueOf(failure.getMessage()))));
  }

  /**
   * Has the font's glyphs loaded, which takes a while the first time, before the window needs them.
   */
  private static List<String> measured(List<String> lines, Font font) {
    FontRenderContext context = new FontRenderContext(null, true, false);
    lines.forEach(line -> font.getStringBounds(line, context));
    return lines;
  }

  private static List<String> lines(Path job, long vigil, DoubleConsumer share) throws Exception {
    try {
      StoredVigil stored = VigilLoader.load(job, vigil, Part.ALL, Counting.EACH, share);
      List<String> lines = VigilText.lines(stored, ZoneId.systemDefault(), false);
      int time = lines.indexOf("TIME"); // the chart shows it
      return time < 0 ? lines : lines.subList(0, time);
    } catch (BadVigil e) {
      return List.of(String.valueOf(e.getMessage()));
    }
  }

  private static List<String> lines(Path job, long before, long after, DoubleConsumer share)
      throws Exception {
    try {
      StoredVigil was =
          VigilLoader.load(job, before, Part.ALL, Counting.EACH, s -> share.accept(s / 2));
      StoredVigil is =
          VigilLoader.load(job, after, Part.ALL, Counting.EACH, s -> share.accept(0.5 + s / 2));
      List<String> obstacles = VigilComparison.obstacles(was.watch(), is.watch());
      if (!obstacles.isEmpty()) {
        return List.of(
            "Vigils "
                + before
                + " and "
                + after
                + " can't be compared: "
                + String.join("; ", obstacles)
                + ". Watch again as the first time.");
      }
      return ComparisonText.lines(
          VigilComparison.of(was.events().orElseThrow(), is.events().orElseThrow()), was);
    } catch (BadVigil e) {
      return List.of(String.valueOf(e.getMessage()));
    }
  }
}
