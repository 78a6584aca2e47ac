package bellwire.soak;

import bellwire.simbench.file.BenchFile;
import bellwire.soak.Mishap.Kind;
import bellwire.soak.Slot.Task;
import bellwire.yaml.FileException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.SplittableRandom;

/** Draws a visit from a seed. */
final class Drawing {
  private static final long SECOND = 1_000_000;

  /** Of a survey, from its start: coded plug, tie plug. */
  private static final long CODED = 32 * SECOND;

  private static final long TIE = 52 * SECOND;
  private static final long SURVEY = 90 * SECOND;

  /** A whole one, and what a hand takes. */
  private static final long REHEARSAL = 270 * SECOND;

  /** In which every slot comes right again. */
  private static final long CALM = 60 * SECOND;

  private static final Kind[] KINDS = Kind.values();

  private final long seed;
  private final SplittableRandom random;
  private final List<Slot> slots = new ArrayList<>();
  private final List<Mishap> mishaps = new ArrayList<>();
  private final List<Integer> ports = new ArrayList<>();
  private final List<Integer> far = new ArrayList<>();
  private final List<String> farEnd = new ArrayList<>();
  private final List<String> foreign = new ArrayList<>();
  private final List<String> intermittent = new ArrayList<>();
  private final List<String> actions = new ArrayList<>();
  private int unsound;

  private Drawing(long seed) {
    this.seed = seed;
    random = new SplittableRandom(new Random(seed).nextLong()); // neighbouring seeds, nothing alike
  }

  /**
   * @param micros virtual time, about
   */
  static Scenario of(long seed, long micros) {
    return new Drawing(seed).drawn(micros);
  }

  private Scenario drawn(long micros) {
    int conductors = 5 + random.nextInt(4); // with one faulty, enough are left to be told apart
    List<Integer> all = new ArrayList<>();
    for (int i = 0; i < 16; i++) {
      all.add(i);
    }
    Random shuffle = new Random(random.nextLong());
    Collections.shuffle(all, shuffle);
    ports.addAll(all.subList(0, conductors));
    Collections.shuffle(all, shuffle);
    all.subList(0, conductors).forEach(p -> far.add(p + 1));
    String faults = faults();
    long at = 0;
    while (at < micros - SURVEY) {
      at = slot(at, true);
    }
    slot(at, false);
    mishaps.sort(Comparator.comparingLong(Mishap::micros));
    String text = text(faults);
    int mask = ports.stream().mapToInt(p -> 1 << p).sum();
    try {
      String name = "seed-" + seed + ".yaml";
      return new Scenario(
          seed, text, BenchFile.parse(name, text), mask, ports.get(0), unsound, slots, mishaps);
    } catch (FileException e) {
      throw new IllegalStateException(text, e);
    }
  }

  private long slot(long at, boolean mishaps) {
    Task task = mishaps ? Task.values()[random.nextInt(Task.values().length)] : Task.SURVEY;
    long core = SURVEY;
    if (task == Task.REHEARSAL) {
      core = REHEARSAL;
    } else if (task != Task.SURVEY) {
      core = (30 + random.nextInt(task == Task.TOUCH ? 30 : 120)) * SECOND;
    }
    Slot slot = new Slot(task, at, at + core, at + core + (mishaps ? CALM : 30 * SECOND));
    slots.add(slot);
    if (mishaps) {
      mishaps(slot);
    }
    farEnd(slot, mishaps);
    switch (task) {
      case SURVEY, TREND, REHEARSAL -> {}
      case CONTINUITY, TOUCH -> intermittents(slot);
      case CALLS -> actions(slot);
    }
    return slot.untilMicros();
  }

  private void farEnd(Slot slot, boolean mayBeEarly) {
    switch (slot.task()) {
      case CONTINUITY, TREND -> plug(slot.micros(), "tie");
      case TOUCH, CALLS, REHEARSAL -> plug(slot.micros(), "open");
      case SURVEY -> {
        plug(slot.micros(), "open");
        boolean early = mayBeEarly && random.nextInt(6) == 0;
        long coded = early ? between(SECOND, CODED - 5 * SECOND) : CODED;
        if (early) {
          mishaps.add(
              new Mishap(
                  Kind.PLUG_EARLY, slot.micros() + coded, slot.micros() + CODED, 0, "coded"));
        }
        plug(slot.micros() + coded, "coded");
        plug(slot.micros() + TIE, "tie");
      }
    }
  }

  private void plug(long micros, String plug) {
    farEnd.add(String.format(Locale.ROOT, "{from: %.6f s, plug: %s}", micros * 1e-6, plug));
  }

  private void mishaps(Slot slot) {
    int count = random.nextInt(5);
    for (int i = 0; i < count; i++) {
      Kind kind = KINDS[random.nextInt(KINDS.length)];
      if (kind == Kind.PLUG_EARLY) {
        continue; // belongs to its survey
      }
      long from = between(slot.micros(), slot.calmMicros());
      long until = Math.min(slot.calmMicros(), from + lasting(kind));
      if (overlaps(kind, from, until)) {
        continue;
      }
      mishaps.add(new Mishap(kind, from, until, amount(kind), what(kind, from, until)));
    }
  }

  /** The device is down in one way at a time. */
  private boolean overlaps(Kind kind, long from, long until) {
    return mishaps.stream()
        .filter(m -> m.kind() == kind || down(m.kind()) && down(kind))
        .anyMatch(m -> m.within(from - SECOND, until + SECOND));
  }

  private static boolean down(Kind kind) {
    return kind == Kind.AGENT_HELD || kind == Kind.AGENT_KILLED || kind == Kind.POWER_CUT;
  }

  private long lasting(Kind kind) {
    return switch (kind) {
      case BYTE_ERRORS, BYTES_DROPPED, CHUNKS_DOUBLED, CHUNKS_SWAPPED -> spread(0.1, 20);
      case LINE_CUT -> spread(0.05, 30);
      case AGENT_HELD -> spread(0.01, 5);
      case AGENT_KILLED, POWER_CUT, HOST_KILLED -> spread(0.5, 20);
      case DISK_FULL -> spread(0.5, 20);
      case CLOCK_STEP, PLUG_EARLY -> 0;
      case CHIP_STUCK -> spread(0.001, 5);
      case CHIP_FLIPS -> spread(0.1, 10);
      case FOREIGN_VOLTAGE -> spread(0.02, 10);
    };
  }

  private double amount(Kind kind) {
    return switch (kind) {
      case BYTE_ERRORS, BYTES_DROPPED -> Math.pow(10, -5 + 3 * random.nextDouble());
      case CHUNKS_DOUBLED, CHUNKS_SWAPPED, CHIP_FLIPS -> Math.pow(10, -3 + 2 * random.nextDouble());
      case CLOCK_STEP -> (random.nextBoolean() ? 1 : -1) * Math.pow(10, 4 * random.nextDouble());
      case CHIP_STUCK -> random.nextInt(3);
      default -> 0;
    };
  }

  private String what(Kind kind, long from, long until) {
    if (kind == Kind.CHIP_STUCK || kind == Kind.CHIP_FLIPS) {
      return List.of("converter", "crosspoint", "expanders").get(random.nextInt(3));
    }
    if (kind != Kind.FOREIGN_VOLTAGE) {
      return "";
    }
    int a = random.nextInt(17);
    int b = (a + 1 + random.nextInt(16)) % 17;
    boolean direct = random.nextBoolean();
    String between = "[" + port(a) + ", " + port(b) + "]";
    foreign.add(
        String.format(
            Locale.ROOT,
            "{between: %s, volts: %d, hz: %d, ohm: %.3f, from: %.6f s, until: %.6f s}",
            between,
            direct ? 5 : 26,
            direct ? 0 : random.nextBoolean() ? 50 : 60,
            0.5 * Math.pow(20, random.nextDouble()),
            from * 1e-6,
            until * 1e-6));
    return between + (direct ? " DC" : " AC");
  }

  private static String port(int port) {
    return port == 16 ? "M" : "P" + (port + 1);
  }

  /** One fault at most, plain enough that no sound verdict may stand on it. */
  private String faults() {
    int a = ports.get(ports.size() - 1);
    int b = ports.get(1);
    return switch (random.nextInt(6)) {
      case 0 -> {
        unsound = 1 << a;
        yield String.format(Locale.ROOT, "opens: [{conductor: %s, at: %.3f}]\n", port(a), share());
      }
      case 1 -> {
        unsound = 1 << a | 1 << b;
        yield String.format(
            Locale.ROOT,
            "bridges: [{between: [%s, %s], at: %.3f, ohm: %.3f}]\n",
            port(a),
            port(b),
            share(),
            20 * random.nextDouble());
      }
      default -> "";
    };
  }

  private double share() {
    return 0.05 + 0.9 * random.nextDouble();
  }

  private void intermittents(Slot slot) {
    int count = random.nextInt(3);
    boolean touch = slot.task() == Task.TOUCH;
    for (int i = 0; i < count; i++) {
      int a = 1 + random.nextInt(ports.size() - 1); // the first is what the others return through
      int b = (a + 1 + random.nextInt(ports.size() - 1)) % ports.size();
      String who =
          touch
              ? "touch: [" + port(ports.get(a)) + ", " + port(ports.get(b)) + "]"
              : "opening: " + port(ports.get(a));
      intermittent.add(
          String.format(
              Locale.ROOT,
              "  - {%s, at: %.2f, poisson: {per-hour: %d}, lasting: %s, from: %.3f s, until: %.3f s}\n",
              who,
              share(),
              60 + random.nextInt(600),
              touch ? "5 us..50 ms" : "5 us..3 s",
              slot.micros() * 1e-6,
              (slot.untilMicros() - 10 * SECOND) * 1e-6));
    }
  }

  /** What somebody does to the control on the connector meanwhile. */
  private void actions(Slot slot) {
    long at = slot.micros() + 5 * SECOND;
    while (at < slot.untilMicros() - 20 * SECOND) {
      String what =
          switch (random.nextInt(4)) {
            case 0 -> "mode: " + List.of("heat", "cool", "off").get(random.nextInt(3));
            case 1 -> "fan: " + (random.nextBoolean() ? "on" : "auto");
            default -> String.format(Locale.ROOT, "set: %.1f K", 6 * random.nextDouble() - 3);
          };
      actions.add(String.format(Locale.ROOT, "{at: %.6f s, %s}", at * 1e-6, what));
      at += spread(0.2, 20);
    }
  }

  private String text(String faults) {
    StringBuilder text = new StringBuilder("bellwire-bench: 1\n");
    text.append("seed: ").append(1 + random.nextInt(1 << 30)).append('\n');
    text.append("cable:\n");
    text.append("  gauge: ").append(14 + 2 * random.nextInt(6)).append(" AWG\n");
    text.append(String.format(Locale.ROOT, "  length: %.2f m%n", 2 + 58 * random.nextDouble()));
    text.append(
        String.format(Locale.ROOT, "  temperature: %.1f C%n", 10 + 25 * random.nextDouble()));
    text.append("  conductors:\n");
    for (int i = 0; i < ports.size(); i++) {
      text.append(
          String.format(
              Locale.ROOT,
              "    - {port: %s, colour: c%d, far: %d}%n",
              port(ports.get(i)),
              i,
              far.get(i)));
    }
    text.append(faults);
    text.append("far-end: [").append(String.join(", ", farEnd)).append("]\n");
    text.append("surroundings: {ambient: 22 C, hum: 5 mV ");
    text.append(random.nextBoolean() ? 50 : 60).append(" Hz");
    text.append(", foreign: [").append(String.join(", ", foreign)).append("]}\n");
    text.append(
        String.format(
            Locale.ROOT,
            "board: {clock-drift: %.1f ppm, tick-jitter: %.2f ms}%n",
            80 * (2 * random.nextDouble() - 1),
            random.nextInt(3) == 0 ? 0.4 : 0.02));
    text.append("control:\n  kind: furnace-cooling\n  power: battery\n  leads: [")
        .append(String.join(", ", Scenario.LEADS))
        .append("]\n  actions: [")
        .append(String.join(", ", actions))
        .append("]\n");
    if (!intermittent.isEmpty()) {
      text.append("intermittent:\n");
      intermittent.forEach(text::append);
    }
    return text.toString();
  }

  private long between(long from, long until) {
    return random.nextLong(from, until);
  }

  /** Seconds with evenly distributed logarithm, in microseconds. */
  private long spread(double least, double most) {
    return Math.round(1e6 * least * Math.pow(most / least, random.nextDouble()));
  }
}
