package bellwire.analysis.survey;

import bellwire.analysis.ties.Seen;
import bellwire.analysis.ties.TieDecoder;
import bellwire.analysis.ties.TiePlan;
import bellwire.analysis.ties.TieReading;
import java.util.ArrayList;
import java.util.List;

/**
 * The rounds of ties of a survey, and what they say.
 *
 * @param plan what was to be tied
 * @param shorted ports that the cable itself joins, in groups
 * @param rounds as measured; fewer than planned where nobody made them
 * @param reading by the rounds there are
 */
public record TieRun(
    TiePlan plan, List<List<Integer>> shorted, List<TieRound> rounds, TieReading reading) {

  /** Decodes what was measured of a plan of two rounds. */
  public static TieRun of(TiePlan plan, OpenResult open, List<TieRound> rounds) {
    List<List<Integer>> shorted = TieRound.shorted(open);
    int metal = open.metalClipped() ? Ports.METAL : Seen.NO_METAL;
    Seen seen =
        new Seen(open.conductors(), metal, shorted, rounds.stream().map(TieRound::joined).toList());
    TieReading reading = decode(plan, rounds.size(), seen);
    List<Integer> broken = List.copyOf(TieBreaks.byCapacitance(open, reading));
    if (!broken.isEmpty()) {
      TieReading narrower = decode(plan, rounds.size(), seen.withBroken(broken));
      reading = narrower.explained() ? narrower : reading;
    }
    return new TieRun(plan, shorted, List.copyOf(rounds), reading);
  }

  private static TieReading decode(TiePlan plan, int rounds, Seen seen) {
    return switch (plan.rounds().size() - rounds) {
      case 0 -> new TieDecoder(plan).decode(seen);
      // A round whose every tie holds a broken conductor is not seen when it is made: the one that
      // was seen may be either.
      case 1 ->
          new TieDecoder(plan.only(0)).decode(seen).or(new TieDecoder(plan.only(1)).decode(seen));
      default -> new TieDecoder(plan.only()).decode(seen);
    };
  }

  public boolean complete() {
    return rounds.size() == plan.rounds().size();
  }

  /** Other ports that the cable itself joins to this one. */
  public List<Integer> touching(int port) {
    return shorted.stream()
        .filter(g -> g.contains(port))
        .flatMap(g -> g.stream().filter(p -> p != port))
        .toList();
  }

  /** Whether a tie was seen on this very port; of ports that touch it can't be said. */
  public boolean reached(int port) {
    return touching(port).isEmpty()
        && rounds.stream().flatMap(r -> r.joined().stream()).anyMatch(g -> g.contains(port));
  }

  /** Every loop that has this port at one of its ends. */
  List<TieRound.Loop> loops(int port) {
    return loops().stream().filter(l -> l.a() == port || l.b() == port).toList();
  }

  /** All loops of two conductors, round by round; those with bare metal left out. */
  public List<TieRound.Loop> loops() {
    List<TieRound.Loop> loops = new ArrayList<>();
    rounds.forEach(r -> r.loops().stream().filter(l -> l.b() != Ports.METAL).forEach(loops::add));
    return loops;
  }
}
