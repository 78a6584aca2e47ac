package bellwire.analysis.vigil;

import bellwire.analysis.calls.LevelChange;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What a vigil saw happen. Theory (110) to (118).
 *
 * @param conductors what happened to whom, most often first; those to whom nothing did come last,
 *     where each is watched by itself
 * @param together openings at the same time
 * @param incidents how often anything happened: what opened together counts once
 * @param latch of a touch vigil, what its board sees of a touch
 */
public record VigilSummary(
    Watch watch,
    List<ConductorSummary> conductors,
    List<Simultaneous> together,
    PoissonRate incidents,
    Optional<TouchLatch> latch) {
  /** Readings of one tick are not at one moment. */
  private static final long TOGETHER_MICROS = 1500;

  public VigilSummary {
    conductors = List.copyOf(conductors);
    together = List.copyOf(together);
  }

  /** Openings of a continuity vigil. */
  public static VigilSummary ofOpenings(Watch watch, List<VigilEvent> events) {
    List<VigilEvent> ordered = ordered(events);
    Map<Subject, List<VigilEvent>> bySubject = new LinkedHashMap<>();
    for (int left = watch.ports(); left != 0; left &= left - 1) {
      bySubject.put(new Subject(Happening.OPENING, left & -left, 0), new ArrayList<>());
    }
    Map<Together, Long> sets = new LinkedHashMap<>();
    List<Together> groups = Together.of(ordered, watch.ports(), TOGETHER_MICROS);
    int at = 0;
    for (Together group : groups) {
      int end = at;
      while (end < ordered.size()
          && ordered.get(end).firstMicros() - group.firstMicros() <= TOGETHER_MICROS) {
        end++;
      }
      List<VigilEvent> own = ordered.subList(at, end);
      at = end;
      boolean one = group.kind() == Together.Kind.COMMON || group.kind() == Together.Kind.EITHER;
      if (one) {
        boolean either = group.kind() == Together.Kind.EITHER;
        Subject who =
            new Subject(
                Happening.OPENING, either ? 0 : group.suspect(), either ? group.suspect() : 0);
        bySubject.computeIfAbsent(who, k -> new ArrayList<>()).add(envelope(own));
      } else {
        for (VigilEvent each : own) {
          Subject who = new Subject(Happening.OPENING, 1 << each.port(), 0);
          bySubject.computeIfAbsent(who, k -> new ArrayList<>()).add(each);
        }
      }
      if (Integer.bitCount(group.ports()) > 1) {
        sets.merge(new Together(0, group.ports(), group.kind(), group.suspect()), 1L, Long::sum);
      }
    }
    Exposure exposure = watch.exposure();
    return new VigilSummary(
        watch,
        summaries(watch, bySubject, exposure),
        simultaneous(sets, ordered, exposure),
        new PoissonRate(groups.size(), exposure.seconds()),
        Optional.empty());
  }

  private static List<ConductorSummary> summaries(
      Watch watch, Map<Subject, List<VigilEvent>> bySubject, Exposure exposure) {
    int looks = (int) bySubject.values().stream().filter(each -> each.size() > 0).count();
    List<ConductorSummary> all = new ArrayList<>();
    bySubject.forEach(
        (who, events) ->
            all.add(
                ConductorSummary.of(
                    who, events, exposure, watch.markMicros(), Math.max(1, looks), 1, 0)));
    all.sort(Comparator.comparingLong(ConductorSummary::count).reversed());
    return all;
  }

  /** One opening of the common conductor, as all the others show it. */
  private static VigilEvent envelope(List<VigilEvent> events) {
    VigilEvent all = events.get(0);
    for (VigilEvent each : events) {
      all =
          new VigilEvent(
              all.port(),
              Math.min(all.beforeMicros(), each.beforeMicros()),
              Math.min(all.firstMicros(), each.firstMicros()),
              Math.max(all.lastMicros(), each.lastMicros()),
              Math.max(all.afterMicros(), each.afterMicros()),
              Math.max(all.times(), each.times()),
              all.latched() && each.latched(),
              all.cutBefore() || each.cutBefore(),
              all.cutAfter() || each.cutAfter());
    }
    return all;
  }

  private static List<Simultaneous> simultaneous(
      Map<Together, Long> sets, List<VigilEvent> events, Exposure exposure) {
    long[] each = new long[Integer.SIZE];
    events.forEach(event -> each[event.port()]++);
    List<Simultaneous> all = new ArrayList<>();
    sets.forEach(
        (set, count) -> {
          int a = Integer.numberOfTrailingZeros(set.ports());
          int b = Integer.numberOfTrailingZeros(set.ports() & set.ports() - 1);
          double window = 2.0 * TOGETHER_MICROS / exposure.micros();
          all.add(
              new Simultaneous(
                  set.ports(), set.kind(), set.suspect(), count, each[a] * each[b] * window));
        });
    all.sort(Comparator.comparingLong(Simultaneous::count).reversed());
    return all;
  }

  /** Touches of a touch vigil. */
  public static VigilSummary ofTouches(Watch watch, List<Touch> touches, TouchLatch latch) {
    Exposure exposure = watch.exposure();
    Map<Subject, List<Touch>> bySubject = TouchPairs.of(touches);
    List<ConductorSummary> all = new ArrayList<>();
    bySubject.forEach(
        (who, own) -> {
          List<VigilEvent> events = ordered(own.stream().map(VigilSummary::event).toList());
          double assumed = assumedMicros(events, latch);
          all.add(
              ConductorSummary.of(
                  who,
                  events,
                  exposure,
                  watch.markMicros(),
                  bySubject.size(),
                  chance(latch, watch.ports(), who, assumed),
                  assumed));
        });
    all.sort(Comparator.comparingLong(ConductorSummary::count).reversed());
    return new VigilSummary(
        watch,
        all,
        List.of(),
        new PoissonRate(touches.size(), exposure.seconds()),
        Optional.of(latch));
  }

  private static VigilEvent event(Touch touch) {
    return new VigilEvent(
        Integer.numberOfTrailingZeros(touch.drivenPorts()),
        touch.beforeMicros(),
        touch.firstMicros(),
        touch.lastMicros(),
        touch.afterMicros(),
        1,
        touch.latched(),
        touch.cutBefore(),
        touch.cutAfter());
  }

  /** The shortest that can be, where latches alone tell of them; else the middle least length. */
  private static double assumedMicros(List<VigilEvent> events, TouchLatch latch) {
    long[] least = events.stream().mapToLong(VigilEvent::leastMicros).sorted().toArray();
    return Math.max(latch.latchMicros(), least[least.length / 2]);
  }

  /**
   * Chance of seeing a touch of a length; of a pair that is not known the least of those it may be.
   */
  private static double chance(TouchLatch latch, int ports, Subject who, double micros) {
    TouchCodes codes = new TouchCodes(ports);
    TouchChance chance = latch.chances(codes);
    int all = who.ports() | who.others();
    double least = 1;
    for (int a = 0; a <= Touch.METAL; a++) {
      for (int b = 0; b < a; b++) {
        int pair = 1 << a | 1 << b;
        if ((pair & ~all) == 0 && may(who, pair)) {
          least = Math.min(least, chance.ofPair(codes.number(a), codes.number(b), micros));
        }
      }
    }
    return least;
  }

  /** One that surely took part, where there is one, and one of the others, where there are any. */
  private static boolean may(Subject who, int pair) {
    return (who.ports() == 0 || (pair & who.ports()) != 0)
        && (who.others() == 0 || (pair & who.others()) != 0);
  }

  /**
   * The chance of seeing a touch of a length, of which nothing else is known; 1 of what is none.
   */
  public double chanceOfSeeing(double micros) {
    return latch.map(l -> l.chances(new TouchCodes(watch.ports())).ofAnyPair(micros)).orElse(1.0);
  }

  /**
   * Drop-outs and stray calls of a calls vigil.
   *
   * @param changes of all leads, in order of time
   */
  public static VigilSummary ofCalls(Watch watch, List<LevelChange> changes) {
    List<ConductorSummary> all = new ArrayList<>();
    int looks = 2 * Integer.bitCount(watch.ports());
    long total = 0;
    for (int left = watch.ports(); left != 0; left &= left - 1) {
      CallEvents calls =
          new CallEvents(Integer.numberOfTrailingZeros(left), changes, watch.toMicros());
      int lead = left & -left;
      total += calls.dropOuts().size() + calls.strays().size();
      if (calls.on().micros() > 0) {
        Subject who = new Subject(Happening.DROP_OUT, lead, 0);
        all.add(
            ConductorSummary.of(
                who, calls.dropOuts(), calls.on(), watch.markMicros(), looks, 1, 0));
      }
      if (calls.off().micros() > 0) {
        Subject who = new Subject(Happening.STRAY_CALL, lead, 0);
        all.add(
            ConductorSummary.of(who, calls.strays(), calls.off(), watch.markMicros(), looks, 1, 0));
      }
    }
    all.sort(Comparator.comparingLong(ConductorSummary::count).reversed());
    return new VigilSummary(
        watch,
        all,
        List.of(),
        new PoissonRate(total, watch.exposure().seconds()),
        Optional.empty());
  }

  private static List<VigilEvent> ordered(List<VigilEvent> events) {
    List<VigilEvent> ordered = new ArrayList<>(events);
    ordered.sort(Comparator.comparingLong(VigilEvent::firstMicros));
    return ordered;
  }
}
