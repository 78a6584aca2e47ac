package bellwire.analysis.rules;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Follows facts as they change and tells which rules are kept. The trace begins at the earliest
 * moment of the first change that is told; a fact is UNKNOWN until it is told. Work is done at
 * changes only; memory depends on the rules and on how many edges are in doubt at once, not on the
 * trace. Not thread safe.
 */
public final class RuleMonitor {
  private final List<Track> tracks = new ArrayList<>();

  /** By fact: the tracks that read it, and its bit there. */
  private final Track[][] readers;

  private final long[][] bits;
  private final Truth[] told;
  private final long[] earliest;
  private final long[] latest;
  private long start = Long.MAX_VALUE;
  private long now = Long.MIN_VALUE;

  /**
   * @param facts the names of all facts that the rules read, in the order of their indices
   * @param clockPpm how far the device's clock may be off, in parts per million
   */
  public RuleMonitor(List<Rule> rules, List<String> facts, double clockPpm) {
    this(rules, facts, clockPpm, Track.MOST_NODES);
  }

  RuleMonitor(List<Rule> rules, List<String> facts, double clockPpm, int mostNodes) {
    if (!(clockPpm >= 0 && clockPpm < 100_000)) {
      throw new IllegalArgumentException("clockPpm=" + clockPpm);
    }
    for (Rule rule : rules) {
      if (!facts.containsAll(rule.facts())) {
        throw new IllegalArgumentException("rule=" + rule.name() + " facts=" + facts);
      }
      tracks.add(new Track(rule, clockPpm, mostNodes));
    }
    int n = facts.size();
    readers = new Track[n][];
    bits = new long[n][];
    told = new Truth[n];
    Arrays.fill(told, Truth.UNKNOWN);
    earliest = new long[n];
    Arrays.fill(earliest, Long.MIN_VALUE);
    latest = earliest.clone();
    for (int fact = 0; fact < n; fact++) {
      String name = facts.get(fact);
      readers[fact] = tracks.stream().filter(t -> t.facts().contains(name)).toArray(Track[]::new);
      bits[fact] =
          Arrays.stream(readers[fact]).mapToLong(t -> 1L << t.facts().indexOf(name)).toArray();
    }
  }

  /**
   * A fact changes once, at a moment between two device times. From UNKNOWN on anything may happen
   * to it until its next change. Telling what a fact already is changes nothing.
   */
  public void change(int fact, Truth truth, long earliestMicros, long latestMicros) {
    check(fact, earliestMicros, latestMicros);
    if (told[fact] == truth) {
      return;
    }
    tell(fact, truth, earliestMicros, latestMicros);
    for (int i = 0; i < readers[fact].length; i++) {
      readers[fact][i].add(edge(bits[fact][i], truth, earliestMicros, latestMicros));
    }
  }

  /**
   * Several facts change at one and the same moment, such as {@code W1} and {@code released W1}.
   */
  public void change(Map<Integer, Truth> facts, long earliestMicros, long latestMicros) {
    Map<Track, PendingEdge> edges = new HashMap<>();
    facts.forEach(
        (fact, truth) -> {
          check(fact, earliestMicros, latestMicros);
          if (told[fact] != truth) {
            tell(fact, truth, earliestMicros, latestMicros);
            for (int i = 0; i < readers[fact].length; i++) {
              edges.merge(
                  readers[fact][i],
                  edge(bits[fact][i], truth, earliestMicros, latestMicros),
                  PendingEdge::with);
            }
          }
        });
    edges.forEach(Track::add);
  }

  private void check(int fact, long earliestMicros, long latestMicros) {
    boolean again = earliestMicros == latestMicros && latestMicros == latest[fact];
    if (earliestMicros > latestMicros
        || earliestMicros < earliest[fact]
        || earliestMicros < now
        || (latestMicros <= earliest[fact] && !again)) {
      throw new IllegalArgumentException(
          "fact=" + fact + " earliestMicros=" + earliestMicros + " latestMicros=" + latestMicros);
    }
  }

  private void tell(int fact, Truth truth, long earliestMicros, long latestMicros) {
    if (now == Long.MIN_VALUE) {
      start = Math.min(start, earliestMicros);
    }
    told[fact] = truth;
    earliest[fact] = earliestMicros;
    latest[fact] = latestMicros;
  }

  private static PendingEdge edge(long bit, Truth truth, long earliest, long latest) {
    return new PendingEdge(
        bit, truth == Truth.TRUE ? bit : 0, truth == Truth.UNKNOWN ? bit : 0, earliest, latest);
  }

  /** Edges, hypotheses and occasions in memory: bounded, however long the trace. */
  public int held() {
    return tracks.stream().mapToInt(Track::held).sum();
  }

  /** No change with an earlier earliest moment comes any more. */
  public void advance(long micros) {
    if (micros <= now) {
      return;
    }
    start = Math.min(start, micros);
    now = micros;
    for (Track track : tracks) {
      track.advance(start, micros);
    }
  }

  /** The verdicts if the trace ended where it was last advanced to; in the order of the rules. */
  public List<Ruling> rulings() {
    return tracks.stream().map(t -> t.ruling(start, now)).toList();
  }

  /** The verdicts at the trace's end. An edge that may lie before it or after it may be either. */
  public List<Ruling> finish(long micros) {
    advance(micros);
    return rulings();
  }
}
