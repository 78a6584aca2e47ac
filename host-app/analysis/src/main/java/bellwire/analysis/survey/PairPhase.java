package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import java.util.ArrayList;
import java.util.List;

/**
 * Leakage between clusters. A cluster that shows nothing against all the rest needs no more; those
 * that do are taken in pairs, one driven, one returned, all others held at common so that only the
 * path between the two counts. Theory (9) and (16).
 */
public final class PairPhase implements Phase {
  /** More pairs than this are read once each, to stay within the time of the phase. */
  private static final int REPEATED_PAIRS = 30;

  /** Changes of range for one reading; hum beyond all bounds must not make it go to and fro. */
  private static final int ATTEMPTS = 3;

  /** Standard uncertainty of a relay's and a switch's resistance: 1.3 of 15.9 ohm, rectangular. */
  private static final double PATH_SHARE = 0.05;

  private final BoardModel board;
  private final CurrentReader reader;
  private final List<List<Integer>> clusters;
  private final int present;
  private final Leak[] rest;
  private final Leak[][] between;
  private final List<Query> queries = new ArrayList<>();
  private List<Query> pending = new ArrayList<>();
  private boolean pairsAsked;

  /** One reading between two clusters, or between one and the rest ({@code b} −1). */
  private static final class Query {
    final int a;
    final int b;
    End end;
    int attempts;
    int silent;
    double amps;
    double volts;
    double u;

    Query(int a, int b, End end) {
      this.a = a;
      this.b = b;
      this.end = end;
    }
  }

  /**
   * @param clusters ports in clusters
   * @param restPhase one-against-rest readings of single ports
   */
  public PairPhase(BoardModel board, List<List<Integer>> clusters, RestPhase restPhase) {
    this.board = board;
    this.clusters = clusters;
    reader = new CurrentReader(board);
    int n = clusters.size();
    int mask = 0;
    rest = new Leak[n];
    between = new Leak[n][n];
    for (int c = 0; c < n; c++) {
      mask |= Ports.mask(clusters.get(c));
      rest[c] = restPhase.leak(clusters.get(c).get(0));
      if (clusters.get(c).size() > 1 && n > 1) {
        pending.add(new Query(c, -1, End.HIGH));
      }
    }
    present = mask;
  }

  @Override
  public List<Probe> next() {
    if (pending.isEmpty() && !pairsAsked) {
      pairsAsked = true;
      askPairs();
    }
    int repeats = pending.size() > REPEATED_PAIRS ? 1 : 3;
    List<Probe> probes = new ArrayList<>();
    List<Probe> silent = new ArrayList<>();
    for (Query query : pending) {
      int drive = Ports.mask(clusters.get(query.a));
      int returned = query.b < 0 ? present & ~drive : Ports.mask(clusters.get(query.b));
      int guard = Ports.ALL & ~(drive | returned);
      Probe on = reader.excited(drive, returned, guard, expectedSiemens(query), query.end, repeats);
      probes.add(on);
      probes.add(query.b < 0 ? CurrentReader.voltage(on) : CurrentReader.across(on));
      query.silent = find(silent, on);
      if (query.silent == silent.size()) {
        silent.add(on.silent());
      }
    }
    probes.addAll(silent);
    return probes;
  }

  /** Index of a silent reading that serves this one, or the next free index. */
  private static int find(List<Probe> silent, Probe on) {
    for (int k = 0; k < silent.size(); k++) {
      Probe probe = silent.get(k);
      if (probe.returned() == on.returned()
          && probe.end() == on.end()
          && probe.gain() == on.gain()) {
        return k;
      }
    }
    return silent.size();
  }

  private void askPairs() {
    for (int a = 0; a < clusters.size(); a++) {
      for (int b = a + 1; b < clusters.size(); b++) {
        if (rest[a].detected() && rest[b].detected()) {
          double most = Math.min(rest[a].upperSiemens(), rest[b].upperSiemens());
          pending.add(new Query(a, b, reader.endFor(most)));
        }
      }
    }
  }

  private double expectedSiemens(Query query) {
    if (query.b < 0 || query.amps != 0) {
      return query.end == End.LOW ? 1e-3 : query.end == End.MID ? 2.5e-5 : 2e-7;
    }
    return Math.min(rest[query.a].upperSiemens(), rest[query.b].upperSiemens());
  }

  @Override
  public void accept(List<Reading> readings) {
    double scatter = CurrentReader.pooledScatter(readings);
    List<Query> again = new ArrayList<>();
    for (int k = 0; k < pending.size(); k++) {
      Query query = pending.get(k);
      CurrentReader.Measured measured =
          reader.measured(
              readings.get(2 * k),
              readings.get(2 * k + 1),
              readings.get(2 * pending.size() + query.silent),
              scatter);
      if (measured == null) {
        if (query.end != End.LOW && query.attempts++ < ATTEMPTS) {
          query.end = query.end == End.HIGH ? End.MID : End.LOW;
          again.add(query);
        }
        continue;
      }
      query.amps = measured.amps();
      query.volts = measured.volts();
      query.u = measured.u();
      End better = reader.endFor(query.amps / board.excitationVolts());
      if (query.b >= 0
          && query.end == End.LOW
          && better != End.LOW
          && query.attempts++ < ATTEMPTS) {
        query.end = End.MID; // the low range lifts the return bus above the guard
        again.add(query);
      } else if (query.b < 0) {
        rest[query.a] = new Leak(query.amps / query.volts, query.u / query.volts);
      } else {
        queries.add(query);
      }
    }
    pending = again;
    if (pending.isEmpty() && pairsAsked) {
      solve();
    }
  }

  /**
   * The returned cluster stands a little above common, so part of its current leaves to the guarded
   * ones, corrected by iteration, and through its own dividers past the bus. A guarded one that the
   * driven one leaks to stands above common too, by its own path, and feeds the returned one.
   * Theory (9).
   */
  private void solve() {
    for (int round = 0; round < 4; round++) {
      for (Query query : queries) {
        double busOhms = query.end == End.LOW ? board.lowReferenceOhms() : 0;
        int returned = clusters.get(query.b).size();
        double returnVolts = query.amps * (busOhms + board.pathOhms() / returned);
        double others = returned / board.dividerOhms();
        double through = 0;
        for (int c = 0; c < clusters.size(); c++) {
          if (c != query.a && c != query.b) {
            double back = siemens(query.b, c);
            others += back;
            through += siemens(query.a, c) * back * board.pathOhms() / clusters.get(c).size();
          }
        }
        double own = (query.amps + returnVolts * others) / query.volts;
        double u = Math.hypot(query.u / Math.abs(query.volts), PATH_SHARE * through);
        Leak leak = new Leak(own - through, u);
        between[query.a][query.b] = leak;
        between[query.b][query.a] = leak;
      }
    }
  }

  /** As far as it is known; not below nothing. */
  private double siemens(int a, int b) {
    Leak leak = between[a][b];
    return leak == null ? 0 : Math.max(0, leak.siemens());
  }

  /** Conductance between two clusters, by their index. */
  public Leak between(int a, int b) {
    Leak measured = between[a][b];
    if (measured != null) {
      return measured;
    }
    // Conductances are not negative: what one cluster shows against all the rest bounds each of its
    // pairs.
    double most = Math.min(rest[a].upperSiemens(), rest[b].upperSiemens());
    return new Leak(0, most / Leak.SIGMAS);
  }

  /** Whether the pair was measured by itself, or only bounded by one-against-rest readings. */
  public boolean measured(int a, int b) {
    return between[a][b] != null;
  }
}
