package bellwire.app.link;

import bellwire.analysis.survey.Probe;
import bellwire.app.survey.Instrument;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.InterlockTripped;
import bellwire.link.DataFrame;
import bellwire.link.HostEndpoint;
import bellwire.link.Message;
import bellwire.link.Message.Ended;
import bellwire.link.ScanStep;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.DoubleConsumer;
import java.util.function.Function;
import java.util.function.ToLongFunction;
import org.jspecify.annotations.Nullable;

/** A board reached through the link, as a survey needs it. */
public final class AgentInstrument implements Instrument {

  /** From the agent's refusal of a program to its word on the interlock, with a line between. */
  private static final long INTERLOCK_WORD_MICROS = 300_000;

  private static final int STEPS_AT_A_TIME = 256;

  /** Of a program in which the relays were let go, or that was refused. */
  private static final int ATTEMPTS = 4;

  /** Let go of charged, a cable is inside the window again within a fraction of this. */
  private static final long REST_MICROS = 300_000;

  private final Transport transport;
  private final Conversation conversation;
  private final Function<Probe, ScanStep> steps;
  private final double converterVolts;
  private final Consumer<String> notes;
  private @Nullable ProgramRun run;
  private long nextProgram;
  private boolean armed;
  private boolean tripped;
  private int flags;

  /**
   * @param steps says a probe in the link's terms
   * @param converterVolts the converter's reference
   * @param cancelled asked often; true ends whatever waits
   * @param firstRequest see {@link HostEndpoint}
   * @param notes told in words of a link that is lost, and back, and of what is measured again
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
    this.notes = notes;
    conversation =
        new Conversation(
            transport, timing, new Readings(), cancelled, firstRequest, notes, "survey again");
    nextProgram = firstRequest % 1_000_000 + 1;
  }

  @Override
  public Identity open() throws InstrumentTrouble {
    Message.Welcome up = conversation.open();
    return new Identity(up.revision(), up.agentVersion());
  }

  @Override
  public String arm() throws InstrumentTrouble {
    Message.Reply answer = conversation.ask(endpoint -> endpoint.arm(transport.nowMicros()));
    armed |= answer.accepted();
    return answer.accepted() ? "" : answer.reason();
  }

  @Override
  public Measured measure(List<Probe> probes, DoubleConsumer progress)
      throws InstrumentTrouble, InterlockTripped {
    Measured all = new Measured(List.of(), 0, 0, 0);
    for (int from = 0; from < probes.size(); from += STEPS_AT_A_TIME) {
      List<Probe> part = probes.subList(from, Math.min(probes.size(), from + STEPS_AT_A_TIME));
      int done = from;
      Measured more =
          connected(part, share -> progress.accept((done + share * part.size()) / probes.size()));
      all = from == 0 ? more : all.then(more);
    }
    return all;
  }

  /**
   * A device that was held up for a moment lets the relays go: what it did not read, or read then,
   * is read again. Where its charged cable tripped the interlock, the board can be armed at once;
   * where a voltage did, it can't.
   */
  private Measured connected(List<Probe> probes, DoubleConsumer progress)
      throws InstrumentTrouble, InterlockTripped {
    Gathering gathering = new Gathering(probes);
    for (int attempt = 1; attempt <= ATTEMPTS; attempt++) {
      int before = gathering.missing();
      ProgramRun ended = run(gathering.probes(), share -> progress.accept(gathering.share(share)));
      gathering.take(ended, converterVolts);
      if (gathering.missing() == 0) {
        return gathering.measured();
      }
      if (2 * gathering.missing() <= before) {
        attempt = 0; // it gets on
      }
      notes.accept(
          "the agent was held up and the relays let go of the cable: measuring that again");
      if (ended.outcome() == Ended.Outcome.HELD_UP) {
        armAgain();
      }
    }
    throw new InstrumentTrouble(
        "the board's relays did not stay closed in "
            + ATTEMPTS
            + " attempts: look at its power supply, and at what else the Pi is doing");
  }

  private void armAgain() throws InstrumentTrouble, InterlockTripped {
    int outside = flags;
    for (int attempt = 1; attempt <= ATTEMPTS; attempt++) {
      pause(REST_MICROS);
      if (arm().isEmpty()) {
        return;
      }
    }
    throw new InterlockTripped(flags == 0 ? outside : flags);
  }

  private void pause(long micros) throws InstrumentTrouble {
    long until = transport.nowMicros() + micros;
    conversation.pump(
        () -> transport.nowMicros() >= until, 2 * micros, "the agent does not answer");
  }

  private ProgramRun run(List<Probe> probes, DoubleConsumer progress)
      throws InstrumentTrouble, InterlockTripped {
    ProgramRun program = accepted(probes, progress);
    conversation.pump(
        program::ended,
        2 * program.conversionMicros() + 10_000_000,
        "the agent began to measure and never ended");
    run = null;
    switch (program.outcome()) {
      case DONE, HELD_UP -> {}
      case INTERLOCK -> throw new InterlockTripped(flags);
      case STOPPED ->
          throw new InstrumentTrouble("the agent stopped measuring: " + program.reason());
      case TROUBLE -> throw new InstrumentTrouble("trouble with the board: " + program.reason());
    }
    return program;
  }

  /**
   * A program that the agent has begun. What leaves the window for less time than the interlock
   * takes to latch, a coil that rings as its cable is let go of, is a refusal and no more; it is
   * over by the time a trip would have been told, and the agent is asked again.
   */
  private ProgramRun accepted(List<Probe> probes, DoubleConsumer progress)
      throws InstrumentTrouble, InterlockTripped {
    List<ScanStep> asked = probes.stream().map(steps).toList();
    String refused = "";
    for (int attempt = 1; attempt <= ATTEMPTS; attempt++) {
      ProgramRun program = new ProgramRun(nextProgram++, probes, asked, progress);
      run = program;
      ToLongFunction<HostEndpoint> request =
          endpoint -> endpoint.run(program.id(), asked, transport.nowMicros());
      Message.Reply answer = armed ? conversation.ask(request) : conversation.askChecked(request);
      if (answer.accepted()) {
        return program;
      }
      run = null;
      refused = answer.reason();
      if (!armed) {
        break;
      }
      if (trippedSoon()) {
        throw new InterlockTripped(flags);
      }
    }
    throw new InstrumentTrouble("the agent refused to measure: " + refused);
  }

  /** A voltage that came between two programs is told as a refusal first, then by its ports. */
  private boolean trippedSoon() throws InstrumentTrouble {
    long until = transport.nowMicros() + INTERLOCK_WORD_MICROS;
    conversation.pump(
        () -> (tripped && flags != 0) || transport.nowMicros() >= until,
        2 * INTERLOCK_WORD_MICROS,
        "the agent does not answer");
    return tripped;
  }

  @Override
  public void close() {
    try {
      ProgramRun running = run;
      if (running != null) {
        conversation.stop(running::ended);
      }
    } finally {
      transport.close();
    }
  }

  /** Whether the board has let go of the cable for all that is known: no program of ours is on. */
  public boolean letGo() {
    return run == null || run.ended();
  }

  private final class Readings implements Conversation.Client {
    @Override
    public void data(DataFrame frame) {
      Message.Data message = frame.message();
      if (message instanceof Message.Samples samples && run != null) {
        run.take(samples);
      } else if (message instanceof Ended ended && run != null) {
        run.take(ended);
      } else if (message instanceof Message.InterlockChanged changed) {
        tripped = changed.interlock().tripped();
        flags = tripped ? changed.interlock().flags() : 0;
      }
    }

    @Override
    public boolean busy() {
      return run != null;
    }

    @Override
    public void lost(long frames) throws InstrumentTrouble {
      throw new InstrumentTrouble(
          "readings were lost on the way, frames=" + frames + ": start again");
    }
  }
}
