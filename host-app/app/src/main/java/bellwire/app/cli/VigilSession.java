package bellwire.app.cli;

import bellwire.app.bench.BenchTransport;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilRow;
import bellwire.app.link.AgentVigil;
import bellwire.app.link.Transport;
import bellwire.app.report.Cautions;
import bellwire.app.report.Paragraph;
import bellwire.app.report.VigilCautions;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.Cancelled;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.LetGo;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.Counting;
import bellwire.app.vigil.SeenBefore;
import bellwire.app.vigil.StoredVigil;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilPrompts;
import bellwire.app.vigil.VigilRun;
import bellwire.app.vigil.VigilSite;
import bellwire.app.vigil.VigilText;
import bellwire.board.BoardDescription;
import bellwire.link.HostEndpoint;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/** One vigil at the terminal: cautions, questions, live lines, marks, statement, exit status. */
final class VigilSession {
  private static final String WHILE_WATCHING =
      "Enter marks '"
          + VigilPrompts.SHOOK
          + "' at this moment, 'mark WORDS' any other note; 'end' ends the"
          + " vigil, 'leave' lets the board go on alone.";
  private static final long LOOK_MICROS = 200_000;

  /** On a bench that does not wait. */
  private static final long FAST_LOOK_MICROS = 10_000_000;

  private static final long DISK_NANOS = 5_000_000_000L;

  private final PrintWriter out;
  private final PrintWriter err;
  private final Path job;
  private final boolean bench;
  private final VigilQuestions.Said said;
  private final VigilNext next;
  private final Interrupt interrupt = new Interrupt();
  private long diskNanos;
  private long diskBytes = -1;

  /**
   * @param bench whether nobody is there to be asked, and no building to get cold
   * @param where the options that name board or bench, as typed
   */
  VigilSession(
      PrintWriter out,
      PrintWriter err,
      Path job,
      boolean bench,
      String where,
      VigilQuestions.Said said) {
    this.out = out;
    this.err = err;
    this.job = job;
    this.bench = bench;
    next = new VigilNext(out, job, where);
    this.said = said;
  }

  /**
   * @param left the vigil to go on with, null for a new one
   */
  int run(Transport transport, LineOptions line, VigilOrder asked, @Nullable VigilRow left) {
    introduce(asked);
    return inFile(
        transport,
        left == null
            ? "stopped before it began"
            : "stopped; where the board keeps the vigil it goes on: 'bellwire vigil end' ends it",
        file -> keep(file, transport, line, asked, left));
  }

  private int keep(
      JobFile file,
      Transport transport,
      LineOptions line,
      VigilOrder asked,
      @Nullable VigilRow left)
      throws JobFileException, InstrumentTrouble {
    Answers answers = Answers.reading(System.in);
    VigilOrder order = asked;
    next.heat(asked.note());
    if (!bench && asked.deEnergised() && left == null) {
      VigilSite site =
          VigilQuestions.ask(said, answers, interrupt::pressed, out, ZonedDateTime.now());
      if (site == null) {
        return notBegun();
      }
      if (site.frost()) {
        say("  ", VigilCautions.FROST);
      }
      next.heat(site.note());
      long most = site.mostMicros(ZonedDateTime.now());
      if (most < VigilSite.LEAST_MICROS) {
        complain(VigilSite.TOO_LATE);
        return ExitCode.WRONG_USAGE_OR_FILE.status();
      }
      if (most < asked.lengthMicros()) {
        say("  ", VigilSite.SHORTENED);
      }
      order = asked.lasting(Math.min(asked.lengthMicros(), most), site.note());
    }
    LiveLines live = new LiveLines(out, true);
    VigilLines lines = new VigilLines(VigilOrder.name(order.kind()));
    boolean fast = bench && line.pace == BenchTransport.Pace.FAST;
    try (VigilRun vigil = begin(file, transport, line, order, left, live)) {
      return watch(vigil, answers, live, lines, fast ? FAST_LOOK_MICROS : LOOK_MICROS);
    }
  }

  /** Tells the board that the file has its vigils, which have all ended. */
  int handOver(Transport transport, LineOptions line) {
    return inFile(
        transport,
        "stopped",
        file -> {
          if (VigilRun.handOver(file, means(transport, line, new LiveLines(out, true)))) {
            out.println("the vigils of " + job + " have ended; the board keeps nothing of them");
            return ExitCode.ALL_SOUND.ifPrinted(out, err);
          }
          complain(
              "the vigils of "
                  + job
                  + " have ended, and the board keeps readings that are not in it: of another job's"
                  + " file, which --resume fetches them into, or of nobody any more: 'bellwire"
                  + " vigil end --forget'");
          return ExitCode.BOARD_OR_LINK_TROUBLE.status();
        });
  }

  /** What is done with a board and the job file; its exit status. */
  private interface Work {
    int in(JobFile file) throws JobFileException, InstrumentTrouble;
  }

  /**
   * Does it, and says in words what goes wrong.
   *
   * @param cancelled said where it is stopped
   */
  private int inFile(Transport transport, String cancelled, Work work) {
    interrupt.arm();
    try (transport;
        JobFile file = JobFile.open(job)) {
      return work.in(file);
    } catch (JobFileException e) {
      complain(e.getMessage());
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    } catch (InstrumentTrouble e) {
      complain(e.getMessage());
      return ExitCode.BOARD_OR_LINK_TROUBLE.status();
    } catch (Cancelled e) {
      complain(cancelled);
      return ExitCode.INTERRUPTED.status();
    } finally {
      out.flush();
      interrupt.done();
    }
  }

  private VigilRun begin(
      JobFile file,
      Transport transport,
      LineOptions line,
      VigilOrder order,
      @Nullable VigilRow left,
      LiveLines live)
      throws JobFileException, InstrumentTrouble {
    VigilRun.Means means = means(transport, line, live);
    if (left == null) {
      return VigilRun.begin(file, order, means);
    }
    SeenBefore seen = SeenBefore.in(job, left);
    VigilRun vigil = VigilRun.resume(file, left, order, means);
    vigil.before(seen);
    return vigil;
  }

  private VigilRun.Means means(Transport transport, LineOptions line, LiveLines live) {
    BoardDescription board = BoardDescription.revisionA();
    Consumer<String> notes =
        words -> {
          live.clear();
          say("  ", words);
          out.flush();
        };
    long beganMicros = System.currentTimeMillis() * 1000;
    LongSupplier unixMicros =
        bench ? () -> beganMicros + transport.nowMicros() : () -> System.currentTimeMillis() * 1000;
    return new VigilRun.Means(
        BoardModels.of(board),
        board.revision(),
        feed ->
            new AgentVigil(
                transport,
                HostEndpoint.Timing.forBaud(line.baud),
                feed,
                interrupt::pressed,
                new SplittableRandom().nextLong(1L << 40),
                notes),
        unixMicros,
        System::nanoTime,
        notes);
  }

  private int watch(
      VigilRun vigil, Answers answers, LiveLines live, VigilLines lines, long lookMicros)
      throws JobFileException {
    say("  ", "vigil " + vigil.vigil() + " of " + job + ". " + WHILE_WATCHING);
    out.println();
    out.flush();
    try {
      boolean goesOn = true;
      while (goesOn) {
        goesOn = vigil.step(lookMicros);
        if (fileGone()) {
          live.clear();
          return withoutFile();
        }
        String typed = answers.poll();
        if (typed == null) {
          live.show(lines.lines(vigil.view(), diskBytes, next.heatLine()));
        } else {
          live.answered();
          String word = typed.split(" ", 2)[0].toLowerCase(Locale.ROOT);
          if (word.equals("leave")) {
            live.clear();
            return leave(vigil);
          } else if (word.equals("end")) {
            vigil.stop();
            goesOn = false;
          } else {
            note(vigil, word, typed);
          }
        }
      }
      live.clear();
      return ended(vigil);
    } catch (InstrumentTrouble e) {
      live.clear();
      complain(e.getMessage());
      say("  ", "What was seen is in the file. Go on with:");
      next.resume();
      return ExitCode.BOARD_OR_LINK_TROUBLE.status();
    } catch (JobFileException e) {
      live.clear();
      complain(e.getMessage());
      say("  ", "The board goes on alone, and keeps what the file lacks. Go on with:");
      next.resume();
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    } catch (Cancelled e) {
      live.clear();
      out.println();
      vigil.stop();
      complain(LetGo.OF_CABLE.stopped(vigil.letGo()));
      say("  ", "What was seen:");
      next.show();
      next.heatBack(vigil.order());
      return ExitCode.INTERRUPTED.status();
    }
  }

  private void note(VigilRun vigil, String word, String typed) throws JobFileException {
    if (typed.isEmpty()) {
      vigil.mark(VigilPrompts.SHOOK);
      say("  ", "marked: " + VigilPrompts.SHOOK);
    } else if (word.equals("mark") && typed.length() > word.length()) {
      String words = typed.substring(word.length()).strip();
      vigil.mark(words);
      say("  ", "marked: " + words);
    } else {
      say("  ", WHILE_WATCHING);
    }
    out.flush();
  }

  private int leave(VigilRun vigil) {
    if (bench) {
      say("  ", "A bench ends with this program: nothing goes on alone. What was seen:");
      next.show();
      return ExitCode.ALL_SOUND.status();
    }
    say(
        "  ",
        "The board goes on alone, "
            + (vigil.view().boardDiskBytes() > 0
                ? "and records on its own disk."
                : "but has no disk of its own: it keeps the last minutes only.")
            + " Come back with:");
    next.resume();
    return ExitCode.ALL_SOUND.status();
  }

  private int ended(VigilRun vigil) throws JobFileException {
    if (!vigil.letGo()) {
      complain(VigilRun.NOT_LET_GO);
    }
    boolean interlock = vigil.endedByInterlock();
    say(
        "  ",
        "The vigil is over: " + (vigil.ending().isEmpty() ? "stopped" : vigil.ending()) + ".");
    out.println();
    vigil.close();
    int status = statement(vigil.vigil());
    if (interlock) {
      next.foreignVoltage();
    }
    next.heatBack(vigil.order());
    return interlock ? ExitCode.FOREIGN_VOLTAGE.status() : status;
  }

  private int statement(long vigil) throws JobFileException {
    try {
      StoredVigil stored =
          VigilShowCommand.load(job, vigil, StoredVigil.Part.ALL, Counting.EACH, out);
      VigilText.lines(stored, ZoneId.systemDefault(), false).forEach(out::println);
      ExitCode code = stored.found() ? ExitCode.FAULT_FOUND : ExitCode.ALL_SOUND;
      return code.ifPrinted(out, err);
    } catch (BadVigil e) {
      complain(e.getMessage());
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    }
  }

  private void introduce(VigilOrder order) {
    out.println("BEFORE ANYTHING IS CONNECTED");
    Cautions.lines().forEach(line -> say("  - ", line));
    out.println();
    out.println(order.deEnergised() ? "WITHOUT HEAT" : "A VIGIL OF THE CALLS");
    (order.deEnergised() ? VigilCautions.WITHOUT_HEAT : VigilCautions.LIVE)
        .forEach(line -> say("  - ", line));
    out.println();
    out.flush();
  }

  private int notBegun() {
    if (interrupt.pressed()) {
      out.println();
      complain("stopped before it began");
      return ExitCode.INTERRUPTED.status();
    }
    complain("not begun: every question has to be answered first");
    return ExitCode.WRONG_USAGE_OR_FILE.status();
  }

  /** Looks after the file now and then: its disk's room, and whether it is there. */
  private boolean fileGone() {
    long now = System.nanoTime();
    if (diskBytes >= 0 && now - diskNanos < DISK_NANOS) {
      return false;
    }
    diskNanos = now;
    try {
      diskBytes = Files.getFileStore(job).getUsableSpace();
    } catch (IOException e) {
      diskBytes = 0;
    }
    return Files.notExists(job);
  }

  private int withoutFile() {
    complain(job + ": was moved or deleted while the vigil goes on; put it back");
    say("  ", "The board goes on alone. With the file in its place again go on with:");
    next.resume();
    return ExitCode.WRONG_USAGE_OR_FILE.status();
  }

  private void complain(@Nullable String words) {
    err.println("bellwire: " + words);
    err.flush();
  }

  private void say(String lead, String words) {
    Paragraph.hanging(lead, words).forEach(out::println);
  }
}
