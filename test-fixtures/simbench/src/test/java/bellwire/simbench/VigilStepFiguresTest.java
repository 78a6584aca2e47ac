package bellwire.simbench;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.ByteChannel;
import bellwire.link.DataFrame;
import bellwire.link.HostEndpoint;
import bellwire.link.HostListener;
import bellwire.link.Message;
import bellwire.link.Message.KeepVigil;
import bellwire.simbench.cable.Occurrence;
import bellwire.simbench.file.Bench;
import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * What a step of a vigil costs on a simulated device, the production agent unchanged, sixteen
 * conductors and some hundred faults a day; and what of those it tells a host. {@code
 * -Dbellwire.hours=24} for a whole day.
 */
class VigilStepFiguresTest {
  private static final double HOURS =
      Double.parseDouble(System.getProperty("bellwire.hours", "0.1"));
  private static final long MICROS = (long) (HOURS * 3_600_000_000L);
  private static final long CHUNK_MICROS = 50_000;

  /** A long one shows its beginning and its end; in an hour's run, too, there are some. */
  private static final double PER_HOUR = Math.max(20, 20 / HOURS);

  @ParameterizedTest
  @EnumSource(
      value = KeepVigil.Kind.class,
      names = {"CONTINUITY", "TOUCH"})
  void aStepOfAVigil(KeepVigil.Kind kind) {
    boolean touch = kind == KeepVigil.Kind.TOUCH;
    Bench bench = RandomBenches.parse(text(touch));
    try (SimulatedDevice device = new SimulatedDevice(bench)) {
      Host host = new Host(device);
      host.run(3_000_000);
      host.end.arm(device.micros());
      host.run(3_000_000);
      KeepVigil keep =
          new KeepVigil(0, 7, kind, 0xFFFF, 0, false, 0, MICROS + 1_000_000, List.of());
      host.end.keepVigil(keep, device.micros());
      long began = device.micros();
      long wall = System.nanoTime();
      long cpu = cpuNanos();
      host.run(MICROS);
      cpu = cpuNanos() - cpu;
      wall = System.nanoTime() - wall;
      double steps = MICROS / 1000.0;
      System.out.printf(
          Locale.ROOT,
          "%s, %.2f h: %.0f ns of processor time a step, %.0f ns passed; runs %d, readings %d%n",
          kind,
          HOURS,
          cpu / steps,
          wall / steps,
          host.runs.size(),
          host.readings);
      host.run(2_000_000);
      assertThat(host.complaints).isEmpty();
      assertThat(host.outcome).isEqualTo(Message.Ended.Outcome.DONE);
      assertThat((double) host.readings).isBetween(0.999 * steps, 1.001 * steps + 1100);
      // Twenty times what was aimed at: a slow or busy machine must not fail the build.
      assertThat(cpu / steps).isLessThan(20_000);
      if (!touch) {
        compare(host.runs, device.copper().truth().occurrences(began * 1000, Long.MAX_VALUE >> 12));
      }
    }
  }

  /** Every opening of 2 ms and more at its time to a millisecond, and nothing where none is. */
  private static void compare(List<Run> runs, List<Occurrence> truth) {
    int[] found = new int[2];
    for (Occurrence o : truth) {
      if (o.startNanos() / 1000 > runs.get(runs.size() - 1).lastMicros()) {
        break;
      }
      if (o.startNanos() / 1000 < runs.get(0).firstMicros() || o.nanos() < 2_000_000) {
        continue;
      }
      found[0]++;
      long first = Long.MAX_VALUE;
      long last = 0;
      for (Run run : runs) {
        boolean on = (run.word() >>> o.portA() & 1) != 0;
        boolean near =
            run.lastMicros() >= o.startNanos() / 1000 - 1
                && run.firstMicros() <= o.endNanos() / 1000;
        if (on && near) {
          first = Math.min(first, run.firstMicros());
          last = Math.max(last, run.lastMicros());
        }
      }
      assertThat(first).as("%s", o).isBetween(o.startNanos() / 1000, o.startNanos() / 1000 + 1100);
      assertThat(last).as("%s", o).isBetween(o.endNanos() / 1000 - 1100, o.endNanos() / 1000 + 1);
      found[1]++;
    }
    for (Run run : runs) {
      for (int rest = run.latched(); rest != 0; rest &= rest - 1) {
        int port = Integer.numberOfTrailingZeros(rest);
        assertThat(truth)
            .as("%s", run)
            .anyMatch(
                o ->
                    o.portA() == port
                        && o.startNanos() / 1000 <= run.lastMicros()
                        && o.endNanos() / 1000 >= run.firstMicros() - 1100);
      }
    }
    System.out.printf("openings of 2 ms and more: %d, found: %d%n", found[0], found[1]);
    assertThat(found[0]).isPositive().isEqualTo(found[1]);
  }

  private static long cpuNanos() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  private static String text(boolean touch) {
    StringBuilder text = new StringBuilder("bellwire-bench: 1\nseed: 24\ncable:\n");
    text.append("  gauge: 18 AWG\n  length: 25 m\n  conductors:\n");
    for (int i = 1; i <= 16; i++) {
      text.append(String.format("    - {port: P%d, colour: c%d, far: %d}%n", i, i, i));
    }
    text.append("far-end: [{from: 0 s, plug: " + (touch ? "open" : "tie") + "}]\n");
    text.append("surroundings: {hum: 5 mV 60 Hz}\nintermittent:\n");
    for (int k = 2; k <= 16; k += 7) {
      String what = touch ? "touch: [P1, P" + k + "]" : "opening: P" + k;
      text.append(
          String.format(
              Locale.ROOT,
              "  - {%s, at: 0.02, poisson: {per-hour: %.3f}, lasting: 5 us..900 ms, from: 10 s}%n",
              what,
              PER_HOUR / 3));
    }
    return text.toString();
  }

  private record Run(long firstMicros, long lastMicros, int word, int latched) {}

  /** As little of a host as a vigil needs. */
  private static final class Host implements HostListener, ByteChannel {
    private final SimulatedDevice device;
    final HostEndpoint end;
    final List<String> complaints = new ArrayList<>();
    final List<Run> runs = new ArrayList<>();
    long readings;
    Message.Ended.Outcome outcome;

    Host(SimulatedDevice device) {
      this.device = device;
      end = new HostEndpoint(this, this, HostEndpoint.Timing.forBaud(921_600), 1);
    }

    void run(long micros) {
      for (long until = device.micros() + micros; device.micros() < until; ) {
        end.step(device.micros());
        device.run(Math.min(CHUNK_MICROS, until - device.micros()));
      }
      end.step(device.micros());
    }

    @Override
    public int read(byte[] into) {
      return device.read(into);
    }

    @Override
    public void write(byte[] bytes, int off, int len) {
      device.write(bytes, off, len);
    }

    @Override
    public void data(DataFrame frame) {
      if (frame.message() instanceof Message.EventSamples samples) {
        long first = samples.firstMicros();
        for (int i = 0; i < samples.ticks().length; i++) {
          first += samples.deltaMicros()[i];
          int ticks = samples.ticks()[i];
          readings += ticks;
          boolean edge = runs.isEmpty() || samples.word()[i] != 0 || samples.latched()[i] != 0;
          long last = first + (ticks - 1) * 1000L;
          if (edge) {
            runs.add(new Run(first, last, samples.word()[i], samples.latched()[i]));
          }
        }
      } else if (frame.message() instanceof Message.Ended ended) {
        outcome = ended.outcome();
      }
    }

    @Override
    public void linkUp(Message.Welcome welcome) {}

    @Override
    public void linkLost(String reason) {
      complaints.add(reason);
    }

    @Override
    public void otherProtocol(Message.Welcome welcome) {
      complaints.add("protocol");
    }

    @Override
    public void agentRestarted(long oldBootId, long newBootId) {
      complaints.add("restarted");
    }

    @Override
    public void lostOfEarlier(long boot, long fromSequence, long toSequence) {
      complaints.add("lost of earlier");
    }

    @Override
    public void lost(long fromSequence, long toSequence) {
      complaints.add("lost");
    }

    @Override
    public void unreadable(long sequence, String reason) {
      complaints.add(reason);
    }

    @Override
    public void replied(Message.Reply reply) {
      if (!reply.accepted()) {
        complaints.add(reply.reason());
      }
    }

    @Override
    public void alive(Message.Alive answer) {}

    @Override
    public void unanswered(long request, String reason) {
      complaints.add(reason);
    }

    @Override
    public void notUnderstood(int type) {
      complaints.add("notUnderstood");
    }
  }
}
