package bellwire.simbench.pi4j;

import bellwire.agent.Agent;
import bellwire.agent.HostLink;
import bellwire.board.BoardDescription;
import bellwire.link.Check;
import bellwire.link.Message;
import bellwire.link.Range;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.link.Tap;
import bellwire.simbench.AnalogSide;
import bellwire.simbench.CallSide;
import bellwire.simbench.VirtualClock;
import bellwire.simbench.chip.BoardChips;
import bellwire.simbench.chip.CallInputs;
import bellwire.simbench.chip.ConverterErrors;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;

/** The production agent on simulated chips, fake copper below and a scripted host above. */
final class Rig implements AutoCloseable {
  static final long TICK_MICROS = 1000;

  final VirtualClock clock = new VirtualClock();
  final FakeCopper copper;
  final FakeEvents events;
  final BoardChips chips;
  final SimulatedPi pi;
  final Agent agent;
  final Deque<Message.FromHost> requests = new ArrayDeque<>();
  final List<Message.FromAgent> replies = new ArrayList<>();
  final List<Message.Data> data = new ArrayList<>();
  String selfCheck = "unset";
  boolean hostPresent = true;
  boolean recording;
  long tookMicros;

  /** Each time that the agent looks at its clock. */
  Runnable looked = () -> {};

  private long nextRequest = 1;

  Rig() {
    this(new SplittableRandom(7));
  }

  Rig(SplittableRandom random) {
    this(new FakeCopper(), CallSide.NONE, ConverterErrors.none(), random, TICK_MICROS);
  }

  /** With something on the call-sense connector. */
  Rig(CallSide calls) {
    this(calls, TICK_MICROS);
  }

  /** With an agent that believes in another tick. */
  Rig(CallSide calls, long agentTickMicros) {
    this(new FakeCopper(), calls, ConverterErrors.none(), new SplittableRandom(7), agentTickMicros);
  }

  /** On other copper than the fake. */
  Rig(AnalogSide analog, ConverterErrors errors, SplittableRandom random) {
    this(analog, CallSide.NONE, errors, random, TICK_MICROS);
  }

  private Rig(
      AnalogSide analog,
      CallSide calls,
      ConverterErrors errors,
      SplittableRandom random,
      long agentTickMicros) {
    BoardDescription board = BoardDescription.revisionA();
    copper = analog instanceof FakeCopper fake ? fake : new FakeCopper();
    events = new FakeEvents(analog::connected, analog::tripped);
    CallInputs inputs = new CallInputs(board, calls, clock, new SplittableRandom(3));
    chips = new BoardChips(board, analog, inputs, events, clock, errors, random);
    pi = SimulatedPi.open(chips, board);
    HostLink link =
        new HostLink() {
          @Override
          public void step(long nowMicros) {}

          @Override
          public Message.FromHost poll() {
            return requests.poll();
          }

          @Override
          public void send(Message.Data message, long nowMicros) {
            data.add(message);
          }

          @Override
          public void reply(Message.FromAgent answer) {
            replies.add(answer);
          }

          @Override
          public boolean hostPresent() {
            return hostPresent;
          }

          @Override
          public void recording(boolean on) {
            recording = on;
          }

          @Override
          public long diskBytes() {
            return 12_345;
          }

          @Override
          public void selfCheck(String state) {
            selfCheck = state;
          }
        };
    agent =
        new Agent(
            pi.sensingBoard(),
            board,
            link,
            agentTickMicros,
            () -> {
              looked.run();
              return clock.micros() + tookMicros;
            });
  }

  void tick() {
    tick(0);
  }

  /** A step that begins so long after it was due. */
  void tick(long lateMicros) {
    clock.advanceTo(clock.nanos() + lateMicros * 1000);
    agent.step(clock.micros(), clock.micros() - lateMicros);
    clock.advanceTo(clock.nanos() + TICK_MICROS * 1000);
  }

  void run(int milliseconds) {
    for (int i = 0; i < milliseconds; i++) {
      tick();
    }
  }

  long ask(Message.FromHost request) {
    requests.add(request);
    return nextRequest++;
  }

  long arm() {
    return ask(new Message.Arm(nextRequest));
  }

  long program(ScanStep... steps) {
    return ask(new Message.Run(nextRequest, 1000 + nextRequest, List.of(steps)));
  }

  long watch(boolean wetting, int loads) {
    return ask(new Message.SenseCalls(nextRequest, 2000 + nextRequest, wetting, loads));
  }

  long vigil(Message.KeepVigil.Kind kind, int ports, int returned, long lengthMicros) {
    List<ScanStep> steps =
        kind == Message.KeepVigil.Kind.TREND
            ? List.of(driving(Rate.SPS_400, 2), driving(Rate.SPS_200, 1))
            : List.of();
    return ask(
        new Message.KeepVigil(
            nextRequest, 3000 + nextRequest, kind, ports, returned, false, 0, lengthMicros, steps));
  }

  long stop() {
    return ask(new Message.Stop(nextRequest));
  }

  Optional<Message.Reply> reply(long request) {
    return replies.stream()
        .filter(Message.Reply.class::isInstance)
        .map(Message.Reply.class::cast)
        .filter(r -> r.request() == request)
        .findFirst();
  }

  <T extends Message.Data> List<T> data(Class<T> kind) {
    return data.stream().filter(kind::isInstance).map(kind::cast).toList();
  }

  /** Armed and checked. */
  Rig ready() {
    run(150);
    arm();
    run(700);
    return this;
  }

  static ScanStep driving(Rate rate, int repeats) {
    return new ScanStep(
        0b1,
        0b10,
        0b1100,
        true,
        Range.LOW,
        Check.NONE,
        false,
        Tap.sense(0),
        Tap.sense(1),
        1,
        rate,
        500,
        repeats);
  }

  static ScanStep monitoring(int port, Rate rate, int repeats) {
    return new ScanStep(
        0,
        0,
        0,
        false,
        Range.NONE,
        Check.NONE,
        false,
        Tap.monitor(port),
        Tap.COMMON,
        1,
        rate,
        0,
        repeats);
  }

  @Override
  public void close() {
    pi.close();
  }
}
