package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.bench.BenchTransport;
import bellwire.app.survey.RandomCable.Fault;
import bellwire.link.Check;
import bellwire.link.FrameCodec;
import bellwire.link.FrameReader;
import bellwire.link.Incoming;
import bellwire.link.LinkFormatException;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import bellwire.link.Range;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.link.Tap;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.BenchFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Messages in any order and any rubbish on the line, voltages coming and going: whatever is said to
 * the agent, a tripped board lets go within a millisecond and stays so while a voltage lasts.
 */
class LinkFuzzTest {
  private static final int DRAWS = Integer.getInteger("bellwire.fuzz", 16);
  private static final long RUN_MICROS = 12_000_000;
  private static final long LOOK_MICROS = 250;
  private static final long LATCH_MICROS = 2000;

  private record Source(long fromMicros, long untilMicros, String yaml) {}

  private static final class Tally {
    long looks;
    long connected;
    long excited;
    long trips;
    long armings;
    long messages;
    final List<String> wrong = new ArrayList<>();
  }

  @Test
  void noOrderOfMessagesArmsTheBoardOntoAVoltage() throws Exception {
    Tally tally = new Tally();
    for (int seed = 1; seed <= DRAWS; seed++) {
      fuzz(seed, tally);
    }
    System.out.printf(
        "fuzz: seeds=1..%d messages=%d looks=%d connected=%d excited=%d trips=%d armings=%d%n",
        DRAWS,
        tally.messages,
        tally.looks,
        tally.connected,
        tally.excited,
        tally.trips,
        tally.armings);
    assertThat(tally.wrong).isEmpty();
    assertThat(tally.armings).isGreaterThan(DRAWS);
    assertThat(tally.connected).isGreaterThan(100);
    assertThat(tally.excited).isGreaterThan(100);
  }

  private static void fuzz(int seed, Tally tally) throws Exception {
    Random random = new Random(seed * 0x9E3779B97F4A7C15L);
    RandomCable cable = new RandomCable(5000 + seed, Fault.NONE);
    List<Source> sources = sources(random);
    String foreign = "foreign: [" + String.join(", ", sources.stream().map(Source::yaml).toList());
    String yaml = ForeignBench.with(ForeignBench.healthy(cable), foreign + "]");
    Chatter chatter = new Chatter(random);
    try (SimulatedDevice device = new SimulatedDevice(BenchFile.parse("drawn.yaml", yaml))) {
      BenchTransport line = BenchTransport.of(device);
      byte[] heard = new byte[4096];
      boolean before = true;
      long trippedSince = 0;
      while (device.micros() < RUN_MICROS) {
        if (chatter.speaks()) {
          byte[] said = chatter.next();
          line.write(said, 0, said.length);
          tally.messages++;
        }
        device.run(LOOK_MICROS);
        chatter.hear(heard, line.read(heard));
        long micros = device.micros();
        boolean connected = device.copper().connected(micros * 1000);
        boolean excited = device.copper().excited(micros * 1000);
        boolean tripped = device.copper().tripped(micros * 1000);
        tally.looks++;
        tally.connected += connected ? 1 : 0;
        tally.excited += excited ? 1 : 0;
        tally.armings += before && !tripped ? 1 : 0;
        tally.trips += !before && tripped ? 1 : 0;
        trippedSince = tripped && !before ? micros : trippedSince;
        Source live = live(sources, micros);
        String as = "seed=" + seed + " micros=" + micros + " " + live;
        if (tripped && micros - trippedSince > 1000 && (connected || excited)) {
          tally.wrong.add("connected while tripped: " + as);
        }
        if (live != null && micros - live.fromMicros() > LATCH_MICROS) {
          if (!tripped || connected || excited) {
            tally.wrong.add("not safe while live: " + as);
          }
        }
        before = tripped;
      }
    }
  }

  private static Source live(List<Source> sources, long micros) {
    return sources.stream()
        .filter(s -> micros >= s.fromMicros() && micros < s.untilMicros())
        .findFirst()
        .orElse(null);
  }

  private static List<Source> sources(Random random) {
    List<Source> sources = new ArrayList<>();
    long at = random.nextInt(2_000_000);
    while (at < RUN_MICROS) {
      long lasts = 20_000 + (long) (2e6 * Math.pow(random.nextDouble(), 3));
      ForeignBench drawn = ForeignBench.draw(random, new RandomCable(1, Fault.NONE), at);
      String yaml =
          drawn
              .foreign()
              .replace("foreign: [", "")
              .replace("}]", String.format(Locale.ROOT, ", until: %.6f s}", (at + lasts) * 1e-6));
      sources.add(new Source(at, at + lasts, yaml));
      at += lasts + 300_000 + random.nextInt(2_500_000);
    }
    return sources;
  }

  /** What a host gone mad sends. */
  private static final class Chatter {
    private final Random random;
    private final FrameReader reader = new FrameReader();
    private long bootId;
    private long request = 1;
    private long program = 1;
    private int silentLooks;
    private int greetings = 1;
    private byte[] last = new byte[] {0};

    Chatter(Random random) {
      this.random = random;
    }

    boolean speaks() {
      if (silentLooks-- > 0) {
        return false;
      }
      silentLooks = random.nextInt(4) == 0 ? random.nextInt(2000) : random.nextInt(200);
      return true;
    }

    /** Only who knows the agent's boot is listened to. */
    void hear(byte[] bytes, int length) {
      reader.feed(bytes, 0, length, this::hear);
    }

    private void hear(byte[] item) {
      try {
        if (MessageCodec.decode(item) instanceof Incoming.Plain plain
            && plain.message() instanceof Message.Welcome welcome) {
          if (bootId != welcome.bootId()) {
            greetings = 3;
          }
          bootId = welcome.bootId();
        }
      } catch (LinkFormatException e) {
        throw new IllegalStateException(e);
      }
    }

    byte[] next() {
      if (greetings > 0) {
        greetings--;
        return FrameCodec.encode(
            MessageCodec.encode(new Message.Greet(MessageCodec.PROTOCOL, bootId, 0, false)));
      }
      int kind = random.nextInt(20);
      if (kind == 0) {
        byte[] garbage = new byte[1 + random.nextInt(300)];
        random.nextBytes(garbage);
        return garbage;
      } else if (kind == 1) {
        return last;
      } else if (kind == 2) {
        byte[] damaged = last.clone();
        damaged[random.nextInt(damaged.length)] ^= (byte) (1 << random.nextInt(8));
        return damaged;
      }
      last = FrameCodec.encode(MessageCodec.encode(message(kind)));
      return last;
    }

    private Message message(int kind) {
      if (random.nextInt(12) == 0) {
        request += random.nextInt(200);
      }
      return switch (kind) {
        case 3 ->
            new Message.Greet(
                random.nextInt(8) == 0 ? random.nextInt(3) : MessageCodec.PROTOCOL,
                random.nextInt(8) == 0 ? random.nextInt(2) : bootId,
                random.nextInt(100),
                random.nextBoolean());
        case 4 -> acknowledge(random.nextInt(1000));
        case 5 -> new Message.Ping(random.nextInt(1000));
        case 6 -> new Message.Stop(request++);
        case 7, 8, 9, 10, 11, 12 -> new Message.Arm(request++);
        default -> new Message.Run(request++, program++, steps());
      };
    }

    private Message.Acknowledge acknowledge(int next) {
      return new Message.Acknowledge(next, next + random.nextInt(1 + random.nextInt(100)));
    }

    private List<ScanStep> steps() {
      List<ScanStep> steps = new ArrayList<>();
      int count = 1 + random.nextInt(random.nextInt(5) == 0 ? 60 : 5);
      while (steps.size() < count) {
        steps.add(step());
      }
      return steps;
    }

    private ScanStep step() {
      boolean load = random.nextInt(8) == 0;
      int all = (1 << ScanStep.PORTS) - 1;
      int some = random.nextInt(all + 1);
      int drive = load ? 0 : random.nextInt(all + 1) & some;
      int returned = load ? 0 : random.nextInt(all + 1) & ~drive;
      int guard = load ? 0 : all & ~drive & ~returned & (random.nextInt(3) > 0 ? all : 0xF0F0);
      Rate[] rates = {Rate.SPS_20, Rate.SPS_60, Rate.SPS_400, Rate.SPS_4000};
      return new ScanStep(
          drive,
          returned,
          guard,
          !load && random.nextInt(3) > 0,
          Range.values()[random.nextInt(Range.values().length)],
          Check.values()[random.nextInt(Check.values().length)],
          load,
          Tap.sense(random.nextInt(ScanStep.PORTS)),
          Tap.COMMON,
          1 << random.nextInt(8),
          rates[random.nextInt(rates.length)],
          random.nextInt(16_000),
          1 + (random.nextInt(4) == 0 ? random.nextInt(60) : 0));
    }
  }
}
