package bellwire.analysis.attached;

import bellwire.analysis.attached.LoadFit.Candidate;
import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Phase;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Reading;
import java.util.ArrayList;
import java.util.List;

/**
 * Looks at what the open phase found joined, or could not explain, for what it is: coil, secondary,
 * capacitor, diode or plain copper. Asks nothing of a cable whose ports are apart. Theory (41) to
 * (43).
 */
public final class AttachedPhase implements Phase {
  private static final double JOINED_SIEMENS = 1.0 / 3000;

  /** A port this low for which no conductance was found conducts in one direction, or charges. */
  private static final double UNEXPLAINED_OHMS = 50_000;

  private static final double EXPLAINED_SHARE = 0.3;
  private static final double EXPLAINED_SIEMENS = 1e-7;
  private static final double OWN_SHARE = 0.1;
  private static final int MOST_FIRST = 60;
  private static final int MOST = 30;

  private final BoardModel board;
  private final List<LoadLook> first = new ArrayList<>();
  private final List<LoadLook> looks = new ArrayList<>();
  private final List<Attachment> found = new ArrayList<>();
  private boolean firstDone;
  private boolean over;

  /**
   * @param open what the open phase found
   * @param slow mask of the ports that hardly came up when they were charged
   * @param windings mask of the ports with a winding on them: what joins others is copper
   */
  public AttachedPhase(BoardModel board, OpenResult open, int slow, int windings) {
    this.board = board;
    List<Integer> ports = open.ports();
    for (int i = 0; i < ports.size(); i++) {
      for (int j = i + 1; j < ports.size(); j++) {
        int a = ports.get(i);
        int b = ports.get(j);
        int floating = Ports.mask(open.touching(a)) | Ports.mask(open.touching(b));
        boolean winding = (windings & (Ports.bit(a) | Ports.bit(b))) != 0;
        if (edge(a, b, open) && !winding) {
          double ohms = 1 / open.network().between(a, b);
          found.add(new Attachment(a, b, LoadKind.RESISTANCE, 1, ohms, ohms));
        } else if (edge(a, b, open)) {
          looks.add(new LoadLook(board, a, b, floating));
        } else if ((unexplained(a, open, slow) || unexplained(b, open, slow))
            && open.clusterOf(a) != open.clusterOf(b)) {
          first.add(new LoadLook(board, a, b, floating));
        }
      }
    }
    bound(first, MOST_FIRST);
    bound(looks, MOST);
  }

  /**
   * Whether something lies between just these two: where distances of a cluster are read with an
   * error, a small conductance appears between any two of it.
   */
  private static boolean edge(int a, int b, OpenResult open) {
    double siemens = open.network().between(a, b);
    return siemens > JOINED_SIEMENS
        && siemens > OWN_SHARE * Math.min(siemens(a, open), siemens(b, open));
  }

  private static double siemens(int port, OpenResult open) {
    double siemens = 0;
    for (int other : open.ports()) {
      siemens += other == port ? 0 : open.network().between(port, other);
    }
    return siemens;
  }

  private static void bound(List<LoadLook> list, int most) {
    if (list.size() > most) {
      list.subList(most, list.size()).clear();
    }
  }

  private static boolean unexplained(int port, OpenResult open, int slow) {
    double siemens = siemens(port, open);
    double ohms = open.restOhms()[port];
    boolean low = ohms < UNEXPLAINED_OHMS && siemens < EXPLAINED_SHARE / ohms;
    boolean charges =
        port != Ports.METAL && (slow & Ports.bit(port)) != 0 && siemens < EXPLAINED_SIEMENS;
    return low || charges;
  }

  /** Whether there is anything to look at. */
  public boolean idle() {
    return first.isEmpty() && looks.isEmpty();
  }

  @Override
  public List<Probe> next() {
    List<Probe> probes = new ArrayList<>();
    if (!firstDone && !first.isEmpty()) {
      first.forEach(look -> probes.addAll(look.first()));
    } else if (!over) {
      looks.forEach(look -> probes.addAll(look.probes()));
    }
    return probes;
  }

  @Override
  public void accept(List<Reading> readings) {
    if (!firstDone && !first.isEmpty()) {
      int each = first.get(0).first().size();
      for (int k = 0; k < first.size(); k++) {
        if (first.get(k).found(readings.subList(each * k, each * (k + 1)))) {
          looks.add(first.get(k));
        }
      }
      bound(looks, MOST);
      firstDone = true;
      over = looks.isEmpty();
      return;
    }
    over = true;
    int each = looks.get(0).probes().size();
    for (int k = 0; k < looks.size(); k++) {
      Attachment joins = judged(looks.get(k), readings.subList(each * k, each * (k + 1)));
      // Of a pair that no conductance was found in, a resistance is what hum made of nothing.
      if (joins.load() || !first.contains(looks.get(k))) {
        found.add(joins);
      }
    }
  }

  private Attachment judged(LoadLook look, List<Reading> readings) {
    LoadFit fit = new LoadFit(board, look.evidence(readings), look.soft());
    List<Candidate> candidates = fit.candidates();
    Candidate best = candidates.get(0);
    double sum = 0;
    for (Candidate candidate : candidates) {
      sum += Math.exp(candidate.logEvidence() - best.logEvidence());
    }
    boolean resistive = best.kind() == LoadKind.RESISTANCE;
    boolean known = resistive || best.kind() == LoadKind.COIL || best.kind() == LoadKind.SECONDARY;
    return new Attachment(
        best.turned() ? look.b : look.a,
        best.turned() ? look.a : look.b,
        best.kind(),
        1 / sum,
        known ? fit.ohms() : Double.NaN,
        best.value());
  }

  /** What was found, pair by pair. */
  public List<Attachment> found() {
    return List.copyOf(found);
  }
}
