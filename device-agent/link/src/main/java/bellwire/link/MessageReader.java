package bellwire.link;

import bellwire.link.LinkFormatException.Problem;
import java.util.ArrayList;
import java.util.List;

/** Builds messages out of fields, everything checked against its range on the way. */
final class MessageReader {
  private static final int MAX_BAUD = 100_000_000;
  private static final int ALL_PORTS = (1 << ScanStep.PORTS) - 1;
  private static final int ALL_LEADS = (1 << Message.SenseCalls.LEADS) - 1;

  private MessageReader() {}

  static Message message(MessageType type, Fields in) throws LinkFormatException {
    return switch (type) {
      case GREET ->
          new Message.Greet(
              in.small("protocol", 0, Integer.MAX_VALUE),
              in.count("boot-id"),
              in.count("next-sequence"),
              in.flag("stores"));
      case ACKNOWLEDGE -> acknowledge(in);
      case ARM -> new Message.Arm(in.count("request"));
      case RUN -> run(in);
      case STOP -> new Message.Stop(in.count("request"));
      case PING -> new Message.Ping(in.count("request"));
      case SENSE_CALLS -> senseCalls(in);
      case KEEP_VIGIL -> keepVigil(in);
      case WELCOME -> welcome(in);
      case REPLY -> new Message.Reply(in.count("request"), in.flag("accepted"), in.text("reason"));
      case ALIVE ->
          new Message.Alive(
              in.count("request"), interlock(in), in.count("vigil"), in.count("disk-bytes"));
      case NOT_UNDERSTOOD -> new Message.NotUnderstood(in.small("type", 0, Integer.MAX_VALUE));
      case DATA_FRAME,
          SAMPLES,
          ENDED,
          INTERLOCK_CHANGED,
          TROUBLE,
          CALL_SAMPLES,
          EVENT_SAMPLES,
          RECORDED ->
          throw new LinkFormatException(Problem.SHAPE, "not a message by itself: type=" + type);
    };
  }

  static Message.Data data(MessageType type, Fields in) throws LinkFormatException {
    return switch (type) {
      case SAMPLES -> samples(in);
      case ENDED ->
          new Message.Ended(
              in.count("program"),
              in.constant("outcome", Message.Ended.Outcome.values()),
              in.text("reason"));
      case INTERLOCK_CHANGED -> new Message.InterlockChanged(interlock(in));
      case TROUBLE -> new Message.Trouble(in.text("chip"), in.text("reason"));
      case CALL_SAMPLES -> callSamples(in);
      case EVENT_SAMPLES -> eventSamples(in);
      case RECORDED -> recorded(in);
      default -> throw new LinkFormatException(Problem.SHAPE, "not a data message: type=" + type);
    };
  }

  private static Message.Welcome welcome(Fields in) throws LinkFormatException {
    int protocol = in.small("protocol", 0, Integer.MAX_VALUE);
    String agentVersion = in.text("agent-version");
    String revision = in.text("revision");
    long bootId = in.whole("boot-id", 1, Long.MAX_VALUE);
    long oldest = in.whole("oldest-sequence", 0, DataFrame.MAX_SEQUENCE + 1);
    return new Message.Welcome(
        protocol,
        agentVersion,
        revision,
        bootId,
        oldest,
        in.whole("next-sequence", oldest, DataFrame.MAX_SEQUENCE + 1),
        in.text("self-check"),
        in.small("baud", 0, MAX_BAUD),
        in.count("device-micros"));
  }

  private static Message.Interlock interlock(Fields in) throws LinkFormatException {
    Fields inner = in.nested("interlock");
    return new Message.Interlock(
        inner.flag("tripped"), inner.flag("outside-now"), inner.small("flags", 0, ALL_PORTS));
  }

  /**
   * A request that can't be read is refused by its identifier, so that its sender need not wait.
   */
  private static Message.Run run(Fields in) throws LinkFormatException {
    long request = in.count("request");
    try {
      long program = in.count("program");
      return new Message.Run(request, program, steps(in, "run", 1));
    } catch (LinkFormatException e) {
      throw e.inRequest(request);
    }
  }

  private static List<ScanStep> steps(Fields in, String message, int fewest)
      throws LinkFormatException {
    Fields inner = in.nested("steps");
    if (inner.size() < fewest || inner.size() > Message.Run.MAX_STEPS) {
      throw new LinkFormatException(
          Problem.RANGE, "out of range: message=" + message + " steps=" + inner.size());
    }
    List<ScanStep> steps = new ArrayList<>(inner.size());
    while (steps.size() < inner.size()) {
      steps.add(step(inner.nested("step")));
    }
    return steps;
  }

  private static Message.KeepVigil keepVigil(Fields in) throws LinkFormatException {
    long request = in.count("request");
    try {
      return new Message.KeepVigil(
          request,
          in.whole("vigil", 1, Long.MAX_VALUE),
          in.constant("kind", Message.KeepVigil.Kind.values()),
          in.small("ports", 0, ALL_LEADS),
          in.small("returned", 0, Message.SenseCalls.LEADS - 1),
          in.flag("wetting"),
          in.small("loads", 0, ALL_LEADS),
          in.whole("length-micros", 1, Message.KeepVigil.MOST_MICROS),
          steps(in, "keep-vigil", 0));
    } catch (LinkFormatException e) {
      throw e.inRequest(request);
    } catch (IllegalArgumentException e) { // rules between fields; the record knows them
      throw new LinkFormatException(Problem.RANGE, "vigil refused, " + e.getMessage())
          .inRequest(request);
    }
  }

  private static Message.SenseCalls senseCalls(Fields in) throws LinkFormatException {
    long request = in.count("request");
    try {
      return new Message.SenseCalls(
          request, in.count("watch"), in.flag("wetting"), in.small("loads", 0, ALL_LEADS));
    } catch (LinkFormatException e) {
      throw e.inRequest(request);
    }
  }

  private static ScanStep step(Fields in) throws LinkFormatException {
    int drive = in.small("drive", 0, ALL_PORTS);
    int returned = in.small("returned", 0, ALL_PORTS);
    int guard = in.small("guard", 0, ALL_PORTS);
    boolean excite = in.flag("excite");
    Range range = in.constant("range", Range.values());
    Check check = in.constant("check", Check.values());
    boolean testLoad = in.flag("test-load");
    Tap plus = tap(in.nested("plus"));
    Tap minus = tap(in.nested("minus"));
    int gain = in.small("gain", 1, 128);
    Rate rate = in.constant("rate", Rate.values());
    int settleMicros = in.small("settle-micros", 0, ScanStep.MAX_SETTLE_MICROS);
    int repeats = in.small("repeats", 1, ScanStep.MAX_REPEATS);
    try {
      return new ScanStep(
          drive,
          returned,
          guard,
          excite,
          range,
          check,
          testLoad,
          plus,
          minus,
          gain,
          rate,
          settleMicros,
          repeats);
    } catch (IllegalArgumentException e) { // rules between fields; the record knows them
      throw new LinkFormatException(Problem.RANGE, "step refused, " + e.getMessage());
    }
  }

  private static Tap tap(Fields in) throws LinkFormatException {
    Tap.Kind kind = in.constant("kind", Tap.Kind.values());
    int least = kind.hasPort() ? 0 : -1;
    int greatest = kind.hasPort() ? ScanStep.PORTS - 1 : -1;
    return new Tap(kind, in.small("port", least, greatest));
  }

  private static Message.Samples samples(Fields in) throws LinkFormatException {
    long program = in.count("program");
    int[] step = ints(in.array("step", TypedArray.UINT16));
    int[] code = ints(in.array("code", TypedArray.SINT32));
    long[] deviceMicros = in.array("device-micros", TypedArray.UINT64);
    long[] chain = in.array("chain", TypedArray.UINT64);
    int[] setup = ints(in.array("setup", TypedArray.UINT32));
    int[] flags = ints(in.array("flags", TypedArray.UINT8));
    int length = step.length;
    if (code.length != length
        || deviceMicros.length != length
        || chain.length != length
        || setup.length != length
        || flags.length != length) {
      throw new LinkFormatException(
          Problem.SHAPE, "arrays of different lengths: message=samples step=" + length);
    }
    for (int i = 0; i < length; i++) {
      if (code[i] < MessageWriter.LEAST_CODE || code[i] > MessageWriter.GREATEST_CODE) {
        throw new LinkFormatException(Problem.RANGE, "beyond 24 bits: code=" + code[i]);
      }
      if (deviceMicros[i] < 0) {
        throw new LinkFormatException(
            Problem.RANGE,
            "beyond 63 bits: deviceMicros=" + Long.toUnsignedString(deviceMicros[i]));
      }
    }
    return new Message.Samples(program, step, code, deviceMicros, chain, setup, flags);
  }

  private static Message.CallSamples callSamples(Fields in) throws LinkFormatException {
    long watch = in.count("watch");
    long firstMicros = in.count("first-micros");
    int[] deltaMicros = ints(in.array("delta-micros", TypedArray.UINT16));
    int[] lateMicros = ints(in.array("late-micros", TypedArray.UINT16));
    int[] tookMicros = ints(in.array("took-micros", TypedArray.UINT16));
    int[] word = ints(in.array("word", TypedArray.UINT16));
    int length = deltaMicros.length;
    if (lateMicros.length != length || tookMicros.length != length || word.length != length) {
      throw new LinkFormatException(
          Problem.SHAPE, "arrays of different lengths: message=call-samples delta=" + length);
    }
    if (length > 0 && deltaMicros[0] != 0) {
      throw new LinkFormatException(
          Problem.RANGE, "not the first: message=call-samples delta=" + deltaMicros[0]);
    }
    if (firstMicros > Long.MAX_VALUE - (1L << 32)) {
      throw new LinkFormatException(
          Problem.RANGE, "beyond 63 bits: message=call-samples firstMicros=" + firstMicros);
    }
    return new Message.CallSamples(watch, firstMicros, deltaMicros, lateMicros, tookMicros, word);
  }

  private static Message.EventSamples eventSamples(Fields in) throws LinkFormatException {
    long vigil = in.count("vigil");
    long firstMicros = in.count("first-micros");
    long[] deltaMicros = in.array("delta-micros", TypedArray.UINT32);
    int[] ticks = ints(in.array("ticks", TypedArray.UINT16));
    int[] word = ints(in.array("word", TypedArray.UINT16));
    int[] latched = ints(in.array("latched", TypedArray.UINT16));
    int[] code = ints(in.array("code", TypedArray.UINT8));
    int length = deltaMicros.length;
    if (ticks.length != length
        || word.length != length
        || latched.length != length
        || code.length != length) {
      throw new LinkFormatException(
          Problem.SHAPE, "arrays of different lengths: message=event-samples delta=" + length);
    }
    if (length > 0 && deltaMicros[0] != 0) {
      throw new LinkFormatException(
          Problem.RANGE, "not the first: message=event-samples delta=" + deltaMicros[0]);
    }
    for (int each : ticks) {
      if (each < 1) {
        throw new LinkFormatException(Problem.RANGE, "a run without a reading: ticks=" + each);
      }
    }
    if (firstMicros > Long.MAX_VALUE - (1L << 43)) {
      throw new LinkFormatException(
          Problem.RANGE, "beyond 63 bits: message=event-samples firstMicros=" + firstMicros);
    }
    return new Message.EventSamples(vigil, firstMicros, deltaMicros, ticks, word, latched, code);
  }

  private static Message.Recorded recorded(Fields in) throws LinkFormatException {
    long boot = in.count("boot");
    long sequence = in.whole("sequence", 0, DataFrame.MAX_SEQUENCE);
    long deviceMicros = in.count("device-micros");
    Fields inner = in.nested("message");
    MessageType type = MessageType.of(inner.small("type", 0, Integer.MAX_VALUE));
    if (type == null || type == MessageType.RECORDED) {
      throw new LinkFormatException(Problem.SHAPE, "not recorded data: type=" + type);
    }
    Message.Data message = data(type, inner);
    long lost = in.whole("lost", 0, sequence);
    return new Message.Recorded(boot, sequence, deviceMicros, message, lost, in.count("left"));
  }

  private static Message.Acknowledge acknowledge(Fields in) throws LinkFormatException {
    long nextSequence = in.count("next-sequence");
    return new Message.Acknowledge(
        nextSequence, in.whole("received", nextSequence, Long.MAX_VALUE));
  }

  private static int[] ints(long[] values) {
    int[] narrow = new int[values.length];
    for (int i = 0; i < narrow.length; i++) {
      narrow[i] = (int) values[i]; // the typed array has bounded it; bit 31 of a setup may be set
    }
    return narrow;
  }
}
