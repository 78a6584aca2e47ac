package bellwire.app.link;

import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Reading;
import bellwire.app.survey.Cancelled;
import bellwire.app.survey.Instrument;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.InterlockTripped;
import bellwire.link.DataFrame;
import bellwire.link.HostEndpoint;
import bellwire.link.HostListener;
import bellwire.link.Message;
import bellwire.link.ScanStep;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.DoubleConsumer;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * A board reached through the link. Waits by letting time pass on the transport, so that it runs in
 * virtual time too.
 */
public final class AgentInstrument implements Instrument, HostListener {
  private static final long GREET_MICROS = 8_000_000;
  private static final long ANSWER_MICROS = 10_000_000;

  /** For how long a survey waits for a lost link to come back: it has ended before 20 s. */
  private static final long LINK_GAP_MICROS = 19_500_000;

  private static final long STOP_MICROS = 1_500_000;

  /** From the agent's refusal of a program to its word on the interlock, with a line between. */
  private static final long INTERLOCK_WORD_MICROS = 300_000;

  private static final int STEPS_AT_A_TIME = 256;

  private final Transport transport;
  private final HostEndpoint endpoint;
  private final Function<Probe, ScanStep> steps;
  private final double converterVolts;
  private final BooleanSupplier cancelled;
  private final Consumer<String> notes;
  private final long gapMicros;
  private Message.@Nullable Welcome welcome;
  private Message.@Nullable Reply reply;
  private @Nullable String trouble;
  private @Nullable ProgramRun run;
  private long awaited = -1;
  private long nextProgram = 1;
  private boolean armed;
  private boolean tripped;
  private int flags;

  /**
   * @param steps says a probe in the link's terms
   * @param converterVolts the converter's reference
   * @param cancelled asked often; true ends whatever waits
   * @param firstRequest see {@link HostEndpoint}
   * @param notes told in words of a link that is lost, and back
   */
  public AgentInstrument(
      Transport transport,
      HostEndpoint.Timing timing,
      Function<Probe, ScanStep> steps,
      double converterVolts,
      BooleanSupplier cancelled,
      long firstRequest,
      Consumer<String> notes) {
    this.transport = transport;
    this.steps = steps;
    this.converterVolts = converterVolts;
    this.cancelled = cancelled;
    this.notes = notes;
    // A request made as the link breaks is still wanted when it is back.
    HostEndpoint.Timing patient = timing.withRequestMicros(LINK_GAP_MICROS + ANSWER_MICROS);
    endpoint = new HostEndpoint(transport, this, patient, firstRequest);
    gapMicros = Math.max(0, LINK_GAP_MICROS - timing.silenceMicros());
    nextProgram = firstRequest % 1_000_000 + 1;
  }

  @Override
  public Identity open() throws InstrumentTrouble {
    pump(
        () -> welcome != null,
        GREET_MICROS,
        "no answer on " + transport.name() + ": is the agent running, and is this its port?");
    Message.Welcome up = welcome;
    if (up == null) {
      throw new IllegalStateException("linked without a welcome");
    }
    return new Identity(up.revision(), up.agentVersion());
  }

  @Override
  public String arm() throws InstrumentTrouble {
    Message.Reply answer = ask(endpoint.arm(transport.nowMicros()));
    armed |= answer.accepted();
    return answer.accepted() ? "" : answer.reason();
  }

  @Override
  public Measured measure(List<Probe> probes, DoubleConsumer progress)
      throws InstrumentTrouble, InterlockTripped {
    List<Reading> readings = new ArrayList<>();
    long start = 0;
    long end = 0;
    long conversions = 0;
    for (int from = 0; from < probes.size(); from += STEPS_AT_A_TIME) {
      List<Probe> part = probes.subList(from, Math.min(probes.size(), from + STEPS_AT_A_TIME));
      int done = from;
      ProgramRun ended =
          run(part, share -> progress.accept((done + share * part.size()) / probes.size()));
      readings.addAll(ended.readings(converterVolts));
      start = from == 0 ? ended.startMicros() : start;
      end = ended.endMicros();
      conversions += ended.conversionMicros();
    }
    return new Measured(readings, start, end, conversions);
  }

  private ProgramRun run(List<Probe> probes, DoubleConsumer progress)
      throws InstrumentTrouble, InterlockTripped {
    List<ScanStep> asked = probes.stream().map(steps).toList();
    ProgramRun program = new ProgramRun(nextProgram++, probes, asked, progress);
    run = program;
    Message.Reply answer = ask(endpoint.run(program.id(), asked, transport.nowMicros()));
    if (!answer.accepted()) {
      run = null;
      if (armed && trippedSoon()) {
        throw new InterlockTripped(flags);
      }
      throw new InstrumentTrouble("the agent refused to measure: " + answer.reason());
    }
    pump(
        program::ended,
        2 * program.conversionMicros() + 10_000_000,
        "the agent began to measure and never ended");
    run = null;
    switch (program.outcome()) {
      case DONE -> {}
      case INTERLOCK -> throw new InterlockTripped(flags);
      case STOPPED ->
          throw new InstrumentTrouble("the agent stopped measuring: " + program.reason());
      case TROUBLE -> throw new InstrumentTrouble("trouble with the board: " + program.reason());
    }
    return program;
  }

  /** A voltage that came between two programs is told as a refusal first, then by its ports. */
  private boolean trippedSoon() throws InstrumentTrouble {
    long until = transport.nowMicros() + INTERLOCK_WORD_MICROS;
    pump(
        () -> (tripped && flags != 0) || transport.nowMicros() >= until,
        2 * INTERLOCK_WORD_MICROS,
        "the agent does not answer");
    return tripped;
  }

  private Message.Reply ask(long request) throws InstrumentTrouble {
    awaited = request;
    reply = null;
    pump(() -> reply != null, ANSWER_MICROS, "the agent does not answer");
    Message.Reply answer = reply;
    if (answer == null) {
      throw new IllegalStateException("awaited=" + awaited);
    }
    return answer;
  }

  /**
   * Steps the link until the condition holds.
   *
   * @param limitMicros until it is too late, the time not counted in which a link once up was down
   */
  private void pump(BooleanSupplier until, long limitMicros, String late) throws InstrumentTrouble {
    long start = transport.nowMicros();
    long lastUp = start;
    long before = start;
    long downMicros = 0;
    while (!until.getAsBoolean()) {
      if (cancelled.getAsBoolean()) {
        throw new Cancelled();
      }
      long now = transport.nowMicros();
      endpoint.step(now);
      if (until.getAsBoolean()) {
        return;
      }
      if (endpoint.isUp()) {
        lastUp = now;
      } else if (welcome != null) {
        downMicros += now - before;
      }
      before = now;
      if (trouble != null) {
        String words = trouble;
        trouble = null;
        throw new InstrumentTrouble(words);
      }
      if (welcome != null && now - lastUp > gapMicros) {
        throw new InstrumentTrouble(lostWords());
      }
      if (now - start - downMicros > limitMicros) {
        throw new InstrumentTrouble(late);
      }
      transport.await(2_000);
    }
  }

  private String lostWords() {
    return transport.away()
        ? "the serial device "
            + transport.name()
            + " was lost and did not come back: plug its cable in, then survey again"
        : "the agent on "
            + transport.name()
            + " fell silent: look at its power and its cable, then survey again";
  }

  @Override
  public void close() {
    try {
      if (run != null && endpoint.isUp()) {
        ProgramRun running = run;
        endpoint.stop(transport.nowMicros());
        long until = transport.nowMicros() + STOP_MICROS;
        while (!running.ended() && transport.nowMicros() < until) {
          endpoint.step(transport.nowMicros());
          transport.await(2_000);
        }
      }
    } finally {
      transport.close();
    }
  }

  /** Whether the board has let go of the cable for all that is known: no program of ours is on. */
  public boolean letGo() {
    return run == null || run.ended();
  }

  @Override
  public void linkUp(Message.Welcome up) {
    if (welcome != null) {
      notes.accept("the link is back");
    }
    welcome = up;
  }

  @Override
  public void linkLost(String reason) {
    notes.accept("the link is lost: waiting for it, plug the cable in again");
  }

  @Override
  public void otherProtocol(Message.Welcome up) {
    trouble =
        "the agent speaks another version of the link, protocol="
            + up.protocol()
            + ": update the older of the two";
  }

  @Override
  public void agentRestarted(long oldBootId, long newBootId) {
    if (run != null) {
      trouble = "the agent restarted while it measured: look at its power supply, then start again";
    }
  }

  @Override
  public void data(DataFrame frame) {
    Message.Data message = frame.message();
    if (message instanceof Message.Samples samples && run != null) {
      run.take(samples);
    } else if (message instanceof Message.Ended ended && run != null) {
      run.take(ended);
    } else if (message instanceof Message.InterlockChanged changed) {
      tripped = changed.interlock().tripped();
      flags = tripped ? changed.interlock().flags() : 0;
    } else if (message instanceof Message.Trouble wrong) {
      trouble = "trouble with the board's " + wrong.chip() + ": " + wrong.reason();
    }
  }

  @Override
  public void lost(long fromSequence, long toSequence) {
    if (run != null) {
      trouble =
          "readings were lost on the way, frames=" + (toSequence - fromSequence) + ": start again";
    }
  }

  @Override
  public void unreadable(long sequence, String reason) {
    if (run != null) {
      trouble = "the agent sent what this program cannot read: " + reason;
    }
  }

  @Override
  public void replied(Message.Reply answer) {
    if (answer.request() == awaited) {
      reply = answer;
    }
  }

  @Override
  public void alive(Message.Interlock interlock) {}

  @Override
  public void unanswered(long request, String reason) {
    if (request == awaited) {
      trouble = "the agent does not answer: " + reason;
    }
  }

  @Override
  public void notUnderstood(int type) {
    trouble =
        "the agent does not know a message of this program, type=" + type + ": update the agent";
  }
}
