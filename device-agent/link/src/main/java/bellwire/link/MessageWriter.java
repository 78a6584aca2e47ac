package bellwire.link;

import bellwire.link.CborItem.Array;
import bellwire.link.CborItem.Bytes;
import bellwire.link.CborItem.Flag;
import bellwire.link.CborItem.Text;
import bellwire.link.CborItem.Whole;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Lays messages out as items: the number of the message, then its fields in the record's order. */
final class MessageWriter {
  static final int LEAST_CODE = -(1 << 23);
  static final int GREATEST_CODE = (1 << 23) - 1;
  private static final String CUT = "…";

  private MessageWriter() {}

  static Array dataFrame(DataFrame frame) {
    return fields(
        MessageType.DATA_FRAME,
        count("sequence", frame.sequence()),
        count("deviceMicros", frame.deviceMicros()),
        data(frame.message()));
  }

  static Array message(Message message) {
    MessageType type = MessageType.of((Record) message);
    if (message instanceof Message.Greet m) {
      return fields(
          type,
          count("protocol", m.protocol()),
          count("bootId", m.bootId()),
          count("nextSequence", m.nextSequence()),
          new Flag(m.stores()));
    } else if (message instanceof Message.Acknowledge m) {
      return fields(type, count("nextSequence", m.nextSequence()), count("received", m.received()));
    } else if (message instanceof Message.Arm m) {
      return fields(type, count("request", m.request()));
    } else if (message instanceof Message.Run m) {
      return run(m);
    } else if (message instanceof Message.Stop m) {
      return fields(type, count("request", m.request()));
    } else if (message instanceof Message.Ping m) {
      return fields(type, count("request", m.request()));
    } else if (message instanceof Message.SenseCalls m) {
      return fields(
          type,
          count("request", m.request()),
          count("watch", m.watch()),
          new Flag(m.wetting()),
          leads("loads", m.loads()));
    } else if (message instanceof Message.KeepVigil m) {
      return keepVigil(m);
    } else if (message instanceof Message.Welcome m) {
      return welcome(m);
    } else if (message instanceof Message.Reply m) {
      return fields(type, count("request", m.request()), new Flag(m.accepted()), text(m.reason()));
    } else if (message instanceof Message.Alive m) {
      return fields(
          type,
          count("request", m.request()),
          interlock(m.interlock()),
          count("vigil", m.vigil()),
          count("diskBytes", m.diskBytes()));
    } else if (message instanceof Message.NotUnderstood m) {
      return fields(type, count("type", m.type()));
    }
    throw new IllegalArgumentException("message=" + type);
  }

  private static Array data(Message.Data message) {
    MessageType type = MessageType.of((Record) message);
    if (message instanceof Message.Samples m) {
      return samples(m);
    } else if (message instanceof Message.Ended m) {
      return fields(type, count("program", m.program()), constant(m.outcome()), text(m.reason()));
    } else if (message instanceof Message.InterlockChanged m) {
      return fields(type, interlock(m.interlock()));
    } else if (message instanceof Message.Trouble m) {
      return fields(type, text(m.chip()), text(m.reason()));
    } else if (message instanceof Message.CallSamples m) {
      return callSamples(m);
    } else if (message instanceof Message.EventSamples m) {
      return eventSamples(m);
    } else if (message instanceof Message.Recorded m) {
      return fields(
          type,
          count("boot", m.boot()),
          count("sequence", m.sequence()),
          count("deviceMicros", m.deviceMicros()),
          data(m.message()),
          count("lost", m.lost()),
          count("left", m.left()));
    }
    throw new IllegalArgumentException("message=" + type);
  }

  private static Array welcome(Message.Welcome m) {
    return fields(
        MessageType.WELCOME,
        count("protocol", m.protocol()),
        text(m.agentVersion()),
        text(m.revision()),
        count("bootId", m.bootId()),
        count("oldestSequence", m.oldestSequence()),
        count("nextSequence", m.nextSequence()),
        text(m.selfCheck()),
        count("baud", m.baud()),
        count("deviceMicros", m.deviceMicros()));
  }

  private static Array run(Message.Run m) {
    return fields(
        MessageType.RUN,
        count("request", m.request()),
        count("program", m.program()),
        steps(m.steps()));
  }

  private static Array keepVigil(Message.KeepVigil m) {
    return fields(
        MessageType.KEEP_VIGIL,
        count("request", m.request()),
        count("vigil", m.vigil()),
        constant(m.kind()),
        leads("ports", m.ports()),
        count("returned", m.returned()),
        new Flag(m.wetting()),
        leads("loads", m.loads()),
        count("lengthMicros", m.lengthMicros()),
        steps(m.steps()));
  }

  private static Array steps(List<ScanStep> steps) {
    List<CborItem> items = new ArrayList<>(steps.size());
    for (ScanStep step : steps) {
      items.add(
          new Array(
              List.of(
                  new Whole(step.drive()),
                  new Whole(step.returned()),
                  new Whole(step.guard()),
                  new Flag(step.excite()),
                  constant(step.range()),
                  constant(step.check()),
                  new Flag(step.testLoad()),
                  tap(step.plus()),
                  tap(step.minus()),
                  new Whole(step.gain()),
                  constant(step.rate()),
                  new Whole(step.settleMicros()),
                  new Whole(step.repeats()))));
    }
    return new Array(items);
  }

  private static Array samples(Message.Samples m) {
    int length = m.step().length;
    if (length > MessageCodec.MAX_SAMPLES
        || m.code().length != length
        || m.deviceMicros().length != length
        || m.chain().length != length
        || m.setup().length != length
        || m.flags().length != length) {
      throw new IllegalArgumentException("samples too many or ragged: step length=" + length);
    }
    for (int i = 0; i < length; i++) {
      if (m.code()[i] < LEAST_CODE || m.code()[i] > GREATEST_CODE) {
        throw new IllegalArgumentException("code=" + m.code()[i]);
      }
      count("deviceMicros", m.deviceMicros()[i]);
    }
    long[] setup = Arrays.stream(m.setup()).mapToLong(Integer::toUnsignedLong).toArray();
    return fields(
        MessageType.SAMPLES,
        count("program", m.program()),
        typed("step", TypedArray.UINT16, longs(m.step())),
        typed("code", TypedArray.SINT32, longs(m.code())),
        typed("deviceMicros", TypedArray.UINT64, m.deviceMicros()),
        typed("chain", TypedArray.UINT64, m.chain()),
        typed("setup", TypedArray.UINT32, setup),
        typed("flags", TypedArray.UINT8, longs(m.flags())));
  }

  private static Array callSamples(Message.CallSamples m) {
    int length = m.deltaMicros().length;
    if (length > MessageCodec.MAX_SAMPLES
        || m.lateMicros().length != length
        || m.tookMicros().length != length
        || m.word().length != length) {
      throw new IllegalArgumentException("samples too many or ragged: delta length=" + length);
    }
    if (length > 0 && m.deltaMicros()[0] != 0) {
      throw new IllegalArgumentException("first deltaMicros=" + m.deltaMicros()[0]);
    }
    return fields(
        MessageType.CALL_SAMPLES,
        count("watch", m.watch()),
        count("firstMicros", m.firstMicros()),
        typed("deltaMicros", TypedArray.UINT16, longs(m.deltaMicros())),
        typed("lateMicros", TypedArray.UINT16, longs(m.lateMicros())),
        typed("tookMicros", TypedArray.UINT16, longs(m.tookMicros())),
        typed("word", TypedArray.UINT16, longs(m.word())));
  }

  private static Array eventSamples(Message.EventSamples m) {
    int length = m.deltaMicros().length;
    if (length > MessageCodec.MAX_SAMPLES
        || m.ticks().length != length
        || m.word().length != length
        || m.latched().length != length
        || m.code().length != length) {
      throw new IllegalArgumentException("samples too many or ragged: delta length=" + length);
    }
    if (length > 0 && m.deltaMicros()[0] != 0) {
      throw new IllegalArgumentException("first deltaMicros=" + m.deltaMicros()[0]);
    }
    for (int ticks : m.ticks()) {
      if (ticks < 1) {
        throw new IllegalArgumentException("ticks=" + ticks);
      }
    }
    return fields(
        MessageType.EVENT_SAMPLES,
        count("vigil", m.vigil()),
        count("firstMicros", m.firstMicros()),
        typed("deltaMicros", TypedArray.UINT32, m.deltaMicros()),
        typed("ticks", TypedArray.UINT16, longs(m.ticks())),
        typed("word", TypedArray.UINT16, longs(m.word())),
        typed("latched", TypedArray.UINT16, longs(m.latched())),
        typed("code", TypedArray.UINT8, longs(m.code())));
  }

  private static Array interlock(Message.Interlock interlock) {
    return new Array(
        List.of(
            new Flag(interlock.tripped()),
            new Flag(interlock.outsideNow()),
            count("flags", interlock.flags())));
  }

  private static Array tap(Tap tap) {
    return new Array(List.of(constant(tap.kind()), new Whole(tap.port())));
  }

  private static Array fields(MessageType type, CborItem... fields) {
    List<CborItem> items = new ArrayList<>(fields.length + 1);
    items.add(new Whole(type.number()));
    items.addAll(List.of(fields));
    return new Array(items);
  }

  private static Whole count(String name, long value) {
    if (value < 0) {
      throw new IllegalArgumentException(name + "=" + value);
    }
    return new Whole(value);
  }

  private static Whole leads(String name, int mask) {
    if (mask < 0 || mask >= 1 << Message.SenseCalls.LEADS) {
      throw new IllegalArgumentException(name + "=" + mask);
    }
    return new Whole(mask);
  }

  private static Whole constant(Enum<?> constant) {
    return new Whole(constant.ordinal());
  }

  /** A reason may come from a library and be of any length: cut, rather than fail the message. */
  private static Text text(String value) {
    String cut =
        value.length() <= MessageCodec.MAX_TEXT
            ? value
            : value.substring(0, MessageCodec.MAX_TEXT - CUT.length()) + CUT;
    // By way of bytes, so that half a surrogate pair becomes a question mark.
    return new Text(new String(cut.getBytes(StandardCharsets.UTF_8), StandardCharsets.UTF_8));
  }

  private static Bytes typed(String name, TypedArray kind, long[] values) {
    return new Bytes(kind.tag(), kind.pack(name, values));
  }

  private static long[] longs(int[] values) {
    return Arrays.stream(values).asLongStream().toArray();
  }
}
