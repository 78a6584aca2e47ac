package bellwire.link;

import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The number that each message begins with; never used again for another. */
enum MessageType {
  GREET(1, Message.Greet.class),
  ACKNOWLEDGE(2, Message.Acknowledge.class),
  ARM(3, Message.Arm.class),
  RUN(4, Message.Run.class),
  STOP(5, Message.Stop.class),
  PING(6, Message.Ping.class),
  SENSE_CALLS(7, Message.SenseCalls.class),
  WELCOME(8, Message.Welcome.class),
  REPLY(9, Message.Reply.class),
  ALIVE(10, Message.Alive.class),
  NOT_UNDERSTOOD(11, Message.NotUnderstood.class),
  KEEP_VIGIL(13, Message.KeepVigil.class),
  DATA_FRAME(12, DataFrame.class),
  SAMPLES(16, Message.Samples.class),
  ENDED(17, Message.Ended.class),
  INTERLOCK_CHANGED(18, Message.InterlockChanged.class),
  TROUBLE(19, Message.Trouble.class),
  CALL_SAMPLES(20, Message.CallSamples.class),
  EVENT_SAMPLES(21, Message.EventSamples.class),
  RECORDED(22, Message.Recorded.class);

  private static final Map<Long, MessageType> BY_NUMBER = new HashMap<>();
  private static final Map<Class<?>, MessageType> BY_RECORD = new HashMap<>();

  static {
    for (MessageType type : values()) {
      BY_NUMBER.put((long) type.number, type);
      BY_RECORD.put(type.record, type);
    }
  }

  private final int number;
  private final Class<? extends Record> record;

  MessageType(int number, Class<? extends Record> record) {
    this.number = number;
    this.record = record;
  }

  int number() {
    return number;
  }

  Class<? extends Record> record() {
    return record;
  }

  boolean isData() {
    return Message.Data.class.isAssignableFrom(record);
  }

  static @Nullable MessageType of(long number) {
    return BY_NUMBER.get(number);
  }

  static MessageType of(Record message) {
    MessageType type = BY_RECORD.get(message.getClass());
    if (type == null) {
      throw new IllegalArgumentException("message=" + message.getClass().getSimpleName());
    }
    return type;
  }
}
