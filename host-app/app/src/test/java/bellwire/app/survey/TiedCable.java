package bellwire.app.survey;

import bellwire.analysis.survey.Ports;
import bellwire.analysis.ties.Seen;
import bellwire.analysis.ties.Tie;
import bellwire.analysis.ties.TieDecoder;
import bellwire.analysis.ties.TiePlan;
import bellwire.analysis.ties.TieReading;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** A drawn cable whose far ends are numbered from left to right and tied by a plan. */
final class TiedCable {
  final RandomCable cable;
  final TiePlan plan;

  /** Far positions by far number. */
  private final List<Integer> positions;

  TiedCable(RandomCable cable, TiePlan plan) {
    this.cable = cable;
    this.plan = plan;
    positions = cable.far.stream().sorted().toList();
  }

  /** Far number of a conductor, by its index in the cable. */
  int number(int conductor) {
    return 1 + positions.indexOf(cable.far.get(conductor));
  }

  private int port(int number) {
    return cable.ports.get(cable.far.indexOf(positions.get(number - 1)));
  }

  /** Round 1 from 40 to 115 s, round 2 from 125 s on. */
  String yaml() {
    return cable
        .yaml(1, 2)
        .replaceFirst(
            "(?m)^far-end:.*$",
            "far-end: [{from: 0 s, plug: open}, {from: 40 s, plug: open, ties: "
                + bench(plan.rounds().get(0))
                + "}, {from: 115 s, plug: open}, {from: 125 s, plug: open, ties: "
                + bench(plan.rounds().get(1))
                + "}]");
  }

  private String bench(List<Tie> ties) {
    return ties.stream()
        .map(
            t ->
                "["
                    + positions.get(t.a() - 1)
                    + ", "
                    + (t.b() == Tie.METAL ? "M" : positions.get(t.b() - 1))
                    + "]")
        .collect(Collectors.joining(", ", "[", "]"));
  }

  /**
   * What a perfect near end would make of it.
   *
   * @param opens ports whose conductor is broken
   * @param shorts groups of ports
   * @param known those of the opens that are known to be broken
   */
  TieReading predicted(List<Integer> opens, List<List<Integer>> shorts, List<Integer> known) {
    List<List<List<Integer>>> rounds = new ArrayList<>();
    for (List<Tie> round : plan.rounds()) {
      List<List<Integer>> groups = new ArrayList<>();
      shorts.forEach(g -> groups.add(new ArrayList<>(g)));
      for (Tie tie : round) {
        int a = port(tie.a());
        int b = tie.b() == Tie.METAL ? Ports.METAL : port(tie.b());
        if (!opens.contains(a) && !opens.contains(b)) {
          merge(groups, a, b);
        }
      }
      rounds.add(groups);
    }
    List<Integer> ports = cable.ports.stream().sorted().toList();
    List<Integer> visible =
        IntStream.range(0, 2).filter(r -> !rounds.get(r).equals(shorts)).boxed().toList();
    if (visible.size() == 2) {
      return new TieDecoder(plan).decode(new Seen(ports, Ports.METAL, shorts, rounds, known));
    }
    // Of a round that shows nothing the near end can't tell that it was made.
    List<List<List<Integer>>> left = visible.stream().map(rounds::get).toList();
    Seen seen = new Seen(ports, Ports.METAL, shorts, left, known);
    return visible.isEmpty()
        ? new TieDecoder(plan.only()).decode(seen)
        : new TieDecoder(plan.only(0)).decode(seen).or(new TieDecoder(plan.only(1)).decode(seen));
  }

  private static void merge(List<List<Integer>> groups, int a, int b) {
    List<Integer> all = new ArrayList<>(List.of(a, b));
    groups.removeIf(
        g -> {
          boolean touches = g.contains(a) || g.contains(b);
          if (touches) {
            all.addAll(g);
          }
          return touches;
        });
    groups.add(all.stream().distinct().sorted().toList());
  }
}
