package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * The landing with the fewest moves, and among those the fewest changed jumpers and settings, that
 * a check finds nothing against. Every scheme that ideal copper allows, with and without what is
 * joined as found and does no harm, waits in a queue by a lower bound of its moves; the first whose
 * moves are exact and that passes the check has the fewest. Theory (92).
 */
final class LandingSearch {
  private static final int MOST_WAITING = 200_000;
  private static final int MOST_CHECKS = 5_000;

  /** Ways to deal out unlike conductors that are tried for one scheme. */
  private static final int MOST_DEALS = 200;

  /** Connections that are given a second conductor. */
  private static final int MOST_DOUBLED = 3;

  /** Beyond so many, only all that does no harm is kept, or none. */
  private static final int MOST_BESIDE = 8;

  /**
   * @param plan null where there is none
   * @param found by the check on the plan; without one, on the first that ideal copper would allow
   * @param needed connections that the plan's calls need; without a plan, those of the scheme with
   *     the fewest connections; empty where ideal copper allows none
   * @param proved no landing with fewer moves was left out; without a plan, none at all
   */
  record Outcome(
      @Nullable LandingPlan plan,
      List<Found> found,
      List<Connection> needed,
      boolean proved,
      Proposal.Effort effort) {}

  /**
   * @param least connections that its calls need
   * @param landed null as long as only a bound of its moves is known
   */
  private record Candidate(
      Scheme scheme,
      List<Connection> least,
      Set<MoveCosts.Use> barred,
      int moves,
      int mismatches,
      @Nullable List<Landed> landed,
      long order) {}

  private final Replacement job;
  private final Function<Installation, List<Found>> check;
  private final Planner.Progress progress;
  private final MoveCosts costs;
  private final PriorityQueue<Candidate> queue =
      new PriorityQueue<>(
          Comparator.comparingInt(Candidate::moves)
              .thenComparing(c -> c.landed() != null)
              .thenComparingInt(c -> c.scheme().fittings().changes())
              .thenComparingInt(Candidate::mismatches)
              .thenComparingDouble(this::dearness)
              .thenComparingLong(Candidate::order));
  private final Set<Scheme> known = new HashSet<>();
  private final Map<Scheme, Integer> deals = new HashMap<>();
  private final Set<Scheme> hopeless = new HashSet<>();
  private final Set<LandingPlan> checked = new HashSet<>();
  private @Nullable Candidate fewest;
  private @Nullable List<Found> firstFound;
  private long schemes;
  private long checks;
  private long order;
  private int moves;
  private boolean cutOff;

  /**
   * @param usable names of the conductors that may be used; the others are lifted at both ends
   */
  LandingSearch(
      Replacement job,
      Set<String> usable,
      Function<Installation, List<Found>> check,
      Planner.Progress progress) {
    this.job = job;
    this.check = check;
    this.progress = progress;
    costs =
        new MoveCosts(
            job.equipment(),
            job.control(),
            job.cable(),
            job.asFound().landed().stream().filter(l -> usable.contains(l.conductor())).toList());
  }

  Outcome run() {
    NearEffects effects = new NearEffects(job.equipment());
    for (Scheme.Fittings fittings : FittingChoices.of(job.control(), job.asFound())) {
      SchemeSearch search =
          new SchemeSearch(job.equipment(), job.control(), effects, fittings, this::more);
      List<Scheme> all = new ArrayList<>();
      search.run(all::add);
      all.forEach(scheme -> consider(scheme, search));
      if (search.serves(costs.kept())) {
        enqueue(new Scheme(costs.kept(), fittings), costs.kept());
      }
      cutOff |= search.cutOff();
    }
    for (Candidate next = queue.poll(); next != null; next = queue.poll()) {
      moves = next.moves();
      if (!more()) {
        throw new Planner.Stopped();
      }
      Outcome outcome = next.landed() == null ? exact(next) : tried(next, next.landed());
      if (outcome != null) {
        return outcome;
      }
    }
    Candidate best = fewest;
    List<Found> found = firstFound;
    return new Outcome(
        null,
        found == null ? List.of() : found,
        best == null ? List.of() : best.least(),
        !cutOff,
        new Proposal.Effort(schemes, checks));
  }

  private boolean more() {
    return progress.more(moves, schemes);
  }

  /** A scheme by itself, and with what is joined as found and does no harm beside it. */
  private void consider(Scheme scheme, SchemeSearch search) {
    schemes++;
    List<Connection> least = scheme.connections();
    List<Connection> beside = new ArrayList<>(costs.kept());
    beside.removeAll(least);
    beside.removeIf(c -> !search.harmless(with(least, List.of(c))));
    enqueue(scheme, least);
    if (beside.size() > MOST_BESIDE) {
      List<Connection> all = new ArrayList<>(least);
      for (Connection c : beside) {
        if (search.harmless(with(all, List.of(c)))) {
          all.add(c);
        }
      }
      cutOff = true;
      enqueue(new Scheme(all, scheme.fittings()), least);
      return;
    }
    for (int mask = 1; mask < 1 << beside.size(); mask++) {
      List<Connection> some = new ArrayList<>();
      for (int b = 0; b < beside.size(); b++) {
        if ((mask & 1 << b) != 0) {
          some.add(beside.get(b));
        }
      }
      List<Connection> all = with(least, some);
      if (search.harmless(all)) {
        enqueue(new Scheme(all, scheme.fittings()), least);
      }
    }
  }

  private static List<Connection> with(List<Connection> some, List<Connection> more) {
    List<Connection> all = new ArrayList<>(some);
    all.addAll(more);
    return all;
  }

  private void enqueue(Scheme scheme, List<Connection> least) {
    if (!known.add(scheme)) {
      return;
    }
    if (queue.size() >= MOST_WAITING) {
      cutOff = true;
      return;
    }
    boolean enough = scheme.connections().size() <= costs.conductors();
    int bound = enough ? costs.bound(scheme.connections()) : 0;
    Candidate candidate =
        new Candidate(scheme, least, Set.of(), bound, mismatches(scheme), null, ++order);
    if (fewest == null || better(candidate, fewest)) {
      fewest = candidate;
    }
    if (enough) {
      queue.add(candidate);
    }
  }

  /** Fewer connections; among as many, like letters, then fewer changes. */
  private static boolean better(Candidate one, Candidate than) {
    return Comparator.comparingInt((Candidate c) -> c.least().size())
            .thenComparingInt(Candidate::mismatches)
            .thenComparingInt(c -> c.scheme().fittings().changes())
            .compare(one, than)
        < 0;
  }

  private double dearness(Candidate candidate) {
    List<Landed> landed = candidate.landed();
    return landed == null ? 0 : costs.dearness(landed);
  }

  private @Nullable Outcome exact(Candidate c) {
    List<Landed> landed = costs.cheapest(c.scheme().connections(), c.barred());
    if (landed != null) {
      queue.add(
          new Candidate(
              c.scheme(),
              c.least(),
              c.barred(),
              costs.moves(landed),
              c.mismatches(),
              landed,
              c.order()));
    }
    return null;
  }

  private @Nullable Outcome tried(Candidate candidate, List<Landed> landed) {
    if (hopeless.contains(candidate.scheme())) {
      return null;
    }
    LandingPlan plan = plan(candidate.scheme(), landed);
    if (!checked.add(plan)) {
      deal(candidate, landed);
      return null;
    }
    if (checks >= MOST_CHECKS) {
      cutOff = true;
      return null;
    }
    List<Found> found = checked(job.cable(), plan);
    if (found.stream().allMatch(Found::notice)) {
      return new Outcome(
          plan, found, candidate.least(), !cutOff, new Proposal.Effort(schemes, checks));
    }
    if (firstFound == null) {
      firstFound = found;
    }
    if (!deals.containsKey(candidate.scheme()) && !passes(candidate, landed, 1)) {
      hopeless.add(candidate.scheme());
      doubled(candidate, landed);
      return null;
    }
    deal(candidate, landed);
    return null;
  }

  private List<Found> checked(Cable cable, LandingPlan plan) {
    checks++;
    return check.apply(new Installation(job.equipment(), job.control(), cable, plan));
  }

  /**
   * Whether a scheme passes with the best copper of this cable for every connection.
   *
   * @param share of that copper's resistance
   */
  private boolean passes(Candidate candidate, List<Landed> landed, double share) {
    double best = Double.POSITIVE_INFINITY;
    double worst = 0;
    for (Landed l : landed) {
      double ohms = job.cable().conductor(l.conductor()).ohms();
      best = Math.min(best, ohms);
      worst = l.near() != null && l.far() != null ? Math.max(worst, ohms) : worst;
    }
    if (best * share >= worst && job.cable().bridges().isEmpty()) {
      return false;
    }
    List<Cable.Conductor> conductors = new ArrayList<>();
    for (Cable.Conductor c : job.cable().conductors()) {
      conductors.add(
          new Cable.Conductor(c.name(), c.nearColour(), c.farColour(), best * share, c.uOhms()));
    }
    Cable good = new Cable(job.cable().name(), conductors, List.of());
    return checked(good, plan(candidate.scheme(), landed)).stream().allMatch(Found::notice);
  }

  /** Where half the resistance would do, each connection in turn by one conductor more. */
  private void doubled(Candidate candidate, List<Landed> landed) {
    List<Connection> connections = candidate.scheme().connections();
    boolean spare =
        connections.size() < costs.conductors()
            && connections.size() < candidate.least().size() + MOST_DOUBLED;
    if (!spare || !passes(candidate, landed, 0.5)) {
      return;
    }
    for (Connection c : candidate.least()) {
      if (connections.indexOf(c) == connections.lastIndexOf(c)) {
        enqueue(
            new Scheme(with(connections, List.of(c)), candidate.scheme().fittings()),
            candidate.least());
      }
    }
  }

  /** The same scheme again, with each conductor in turn barred from what it was taken for. */
  private void deal(Candidate candidate, List<Landed> landed) {
    int dealt = deals.merge(candidate.scheme(), 1, Integer::sum);
    if (dealt > MOST_DEALS) {
      cutOff = true;
      return;
    }
    for (int c = 0; c < landed.size(); c++) {
      Landed l = landed.get(c);
      if (l.near() == null || l.far() == null) {
        continue;
      }
      Connection made =
          new Connection(
              job.equipment().terminals().indexOf(l.near()),
              job.control().terminals().indexOf(l.far()));
      Set<MoveCosts.Use> barred = new HashSet<>(candidate.barred());
      if (candidate.scheme().connections().contains(made)
          && barred.add(new MoveCosts.Use(c, made))) {
        queue.add(
            new Candidate(
                candidate.scheme(),
                candidate.least(),
                barred,
                candidate.moves(),
                candidate.mismatches(),
                null,
                ++order));
      }
    }
  }

  private LandingPlan plan(Scheme scheme, List<Landed> usable) {
    Map<String, Landed> landed = new LinkedHashMap<>();
    job.asFound()
        .landed()
        .forEach(l -> landed.put(l.conductor(), new Landed(l.conductor(), null, null)));
    usable.forEach(l -> landed.put(l.conductor(), l));
    Scheme.Fittings fittings = scheme.fittings();
    return new LandingPlan(List.copyOf(landed.values()), fittings.jumpers(), fittings.settings());
  }

  /** How many connections join terminals of different letters. */
  private int mismatches(Scheme scheme) {
    int count = 0;
    for (Connection c : scheme.connections()) {
      String near = Letters.plain(job.equipment().terminals().get(c.near()));
      String far = Letters.plain(job.control().terminals().get(c.far()));
      count += near.equals(far) ? 0 : 1;
    }
    return count;
  }
}
