package bellwire.app.survey;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndWatch;
import bellwire.analysis.survey.FarEndWatch.Sight;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.TiePhase;
import bellwire.analysis.survey.TieRound;
import bellwire.analysis.survey.TouchPhase;
import bellwire.app.survey.TieRounds.Hands;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Sees which conductors ties join, coarsely while waiting and then precisely. */
final class TieSight {
  private static final double PULLED = 0.7;
  private static final double BAND_OHMS = 3;

  /** So far below the limit a coarse reading is certain to be below it. */
  private static final double CERTAIN = 0.8;

  private final Hands hands;
  private final BoardModel board;
  private final OpenResult open;
  private final Criteria criteria;
  private final SurveyListener listener;
  private final FarEndWatch watch;
  private final List<List<Integer>> shorted;

  TieSight(
      Hands hands,
      BoardModel board,
      OpenResult open,
      SurveyOptions options,
      SurveyListener listener) {
    this.hands = hands;
    this.board = board;
    this.open = open;
    criteria = options.criteria();
    this.listener = listener;
    watch = new FarEndWatch(board, open, options.dwellMicros());
    shorted = TieRound.shorted(open);
  }

  /** One round of watching. */
  Sight look() throws InstrumentTrouble, InterlockTripped {
    return hands.look(watch);
  }

  /**
   * Mask of the conductors that something at the far end joins to others; those that touch anyway
   * are left out, as it hardly shows on them.
   */
  int joined() {
    double[] ohms = watch.singleOhms();
    return Ports.mask(
        open.conductors().stream()
            .filter(p -> touching(p).isEmpty())
            .filter(p -> ohms[p] < TouchPhase.CLUSTER_OHMS && ohms[p] < PULLED * open.restOhms()[p])
            .toList());
  }

  /**
   * Null where the far end moved, or a reading was lost.
   *
   * @param joined mask of the conductors that are joined
   */
  @Nullable TieRound measure(int number, int joined)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    hands.assureDead();
    look();
    double[] ohms = watch.singleOhms();
    if (joined() != joined) {
      return null;
    }
    TiePhase phase = new TiePhase(board, open, ohms);
    hands.perform("ties, round " + number + ": who is joined to whom", phase);
    Sight after = look();
    hands.assureDead();
    if (after.kind() == null || joined() != joined || !alike(ohms, watch.singleOhms(), joined)) {
      listener.note("the far end changed during the measurement: measured again when it is still");
      return null;
    }
    TieRound round = TieRound.of(open, phase, criteria);
    for (int port : Ports.list(joined)) {
      boolean near = ohms[port] < CERTAIN * TieRound.TIED_OHMS;
      if (near && round.joined().stream().noneMatch(g -> g.contains(port))) {
        listener.note("something disturbed a reading: measured again");
        return null;
      }
    }
    return round;
  }

  private static boolean alike(double[] a, double[] b, int mask) {
    return Ports.list(mask).stream().allMatch(p -> Math.abs(a[p] - b[p]) < 0.01 * a[p] + BAND_OHMS);
  }

  /** The group that the cable itself joins this port to; empty without one. */
  List<Integer> touching(int port) {
    return shorted.stream().filter(g -> g.contains(port)).findFirst().orElse(List.of());
  }

  /** Who is joined by ties: "P1-P4, P2-P7"; what the cable itself joins is left out. */
  String words(TieRound round) {
    List<List<Integer>> tied = round.joined().stream().filter(g -> !shorted.contains(g)).toList();
    return tied.isEmpty()
        ? "none"
        : tied.stream()
            .map(g -> g.stream().map(Ports::name).collect(Collectors.joining("-")))
            .collect(Collectors.joining(", "));
  }
}
