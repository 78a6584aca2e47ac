package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;

/** Why a control can't be landed on a cable, and what would do instead. Theory (92). */
final class Shortage {
  private static final List<String> NUMBERS =
      List.of(
          "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
          "eleven", "twelve");

  /** 18 AWG replaced by 14 AWG (ASTM B258: 6 numbers double the area, 4 make 2.52). */
  private static final double THICKER = 1 / 2.52;

  private final Replacement job;
  private final Function<Installation, List<Found>> check;
  private final Planner.Progress progress;
  private final Set<String> usable;

  Shortage(
      Replacement job,
      Function<Installation, List<Found>> check,
      Planner.Progress progress,
      Set<String> usable) {
    this.job = job;
    this.check = check;
    this.progress = progress;
    this.usable = usable;
  }

  Proposal.Shortfall of(LandingSearch.Outcome outcome) {
    List<Connection> needed = new ArrayList<>(outcome.needed());
    needed.sort(Comparator.comparingInt(Connection::far).thenComparingInt(Connection::near));
    int lacking = needed.size() - usable.size();
    String words;
    List<String> alternatives = new ArrayList<>();
    if (needed.isEmpty()) {
      words = mismatch();
      alternatives.add("another control, whose terminals and settings suit this equipment");
    } else if (lacking > 0) {
      words = tooFew(needed);
      moreConductors(lacking, alternatives);
      onBatteries(alternatives);
      fanGivenUp(alternatives);
    } else {
      words = rejected(outcome.found());
      onBatteries(alternatives);
      thickerCable(alternatives);
    }
    return new Proposal.Shortfall(
        job.cable().conductors().stream()
            .map(Cable.Conductor::name)
            .filter(usable::contains)
            .toList(),
        needed.stream().map(this::named).toList(),
        words,
        List.copyOf(alternatives));
  }

  private Proposal.Needed named(Connection c) {
    return new Proposal.Needed(
        job.equipment().terminals().get(c.near()), job.control().terminals().get(c.far()));
  }

  /** Such as 'four sound conductors, five needed: R, C, W, Y, G'. */
  private String tooFew(List<Connection> needed) {
    List<String> names = needed.stream().map(c -> job.control().terminals().get(c.far())).toList();
    return number(usable.size())
        + (usable.size() == 1 ? " sound conductor, " : " sound conductors, ")
        + number(needed.size())
        + " needed: "
        + String.join(", ", names);
  }

  static String number(int n) {
    return n < NUMBERS.size() ? NUMBERS.get(n) : String.valueOf(n);
  }

  private static String rejected(List<Found> found) {
    StringBuilder words =
        new StringBuilder(
            "the conductors are enough, but no landing is free of findings; the best has");
    String lead = " ";
    for (Found f : found) {
      if (!f.notice()) {
        words.append(lead).append(f.kind().title()).append(" (").append(f.words()).append(")");
        lead = "; ";
      }
    }
    return words.toString();
  }

  /** The calls, none too many, that can't be had together whatever is landed, fitted and set. */
  private String mismatch() {
    Set<Call> clashing = EnumSet.noneOf(Call.class);
    job.control().states().forEach(s -> clashing.add(s.call()));
    for (Call call : List.copyOf(clashing)) {
      clashing.remove(call);
      if (servable(clashing)) {
        clashing.add(call);
      }
    }
    List<String> calls = clashing.stream().map(c -> "'" + c.words() + "'").toList();
    return "no number of conductors would do: nothing that can be landed, fitted and set makes the"
        + " equipment do what it must "
        + (calls.size() == 1 ? "on " : "on all of ")
        + String.join(", ", calls);
  }

  private boolean servable(Set<Call> calls) {
    Control control =
        withStates(
            job.control().states().stream()
                .filter(s -> s.call() == Call.NONE || calls.contains(s.call()))
                .toList());
    NearEffects effects = new NearEffects(job.equipment());
    boolean[] any = {false};
    for (Scheme.Fittings fittings : FittingChoices.of(control, job.asFound())) {
      new SchemeSearch(job.equipment(), control, effects, fittings, () -> progress.more(0, 0))
          .run(scheme -> any[0] = true);
    }
    return any[0];
  }

  private void moreConductors(int lacking, List<String> alternatives) {
    List<Cable.Conductor> conductors = new ArrayList<>(job.cable().conductors());
    List<Landed> landed = new ArrayList<>(job.asFound().landed());
    Set<String> with = new HashSet<>(usable);
    double ohms =
        job.cable().conductors().stream().mapToDouble(Cable.Conductor::ohms).min().orElse(1);
    for (int i = 1; i <= lacking; i++) {
      String name = "further conductor " + i;
      conductors.add(new Cable.Conductor(name, null, null, ohms, 0));
      landed.add(new Landed(name, null, null));
      with.add(name);
    }
    Cable longer = new Cable(job.cable().name(), conductors, job.cable().bridges());
    if (works(job.control(), longer, landed(landed), with)) {
      alternatives.add(
          (lacking == 1 ? "one conductor more" : number(lacking) + " conductors more")
              + ": a repair, or a new cable with at least "
              + number(usable.size() + lacking)
              + " sound conductors");
    }
  }

  private void onBatteries(List<String> alternatives) {
    Control.Supply supply = job.control().supply();
    if (supply.kind() == Control.Supply.Kind.BATTERY) {
      return;
    }
    Control battery =
        new Control(
            job.control().title(),
            job.control().terminals(),
            new Control.Supply(Control.Supply.Kind.BATTERY, null, null, List.of(), 0, 0),
            job.control().contacts(),
            job.control().jumpers(),
            job.control().settings(),
            job.control().states());
    if (works(battery, job.cable(), job.asFound(), usable)) {
      alternatives.add(
          "a control with the same terminals that lives on batteries: this cable's "
              + number(usable.size())
              + " sound conductors will do");
    }
  }

  /** A jumper at the equipment lets one conductor call two things; the fan's own call is lost. */
  private void fanGivenUp(List<String> alternatives) {
    List<Control.State> states =
        job.control().states().stream().filter(s -> s.call() != Call.FAN).toList();
    if (states.size() == job.control().states().size()) {
      return;
    }
    Control without = withStates(states);
    NearEffects effects = new NearEffects(job.equipment());
    List<String> near = job.equipment().terminals();
    for (int a = 0; a < near.size(); a++) {
      for (int b = a + 1; b < near.size(); b++) {
        if (effects.supplies(a) || effects.supplies(b)) {
          continue;
        }
        Set<Control.Jumper> jumpers = new HashSet<>(job.asFound().jumpers());
        jumpers.add(new Control.Jumper(Point.Side.NEAR, near.get(a), near.get(b)));
        LandingPlan found =
            new LandingPlan(job.asFound().landed(), jumpers, job.asFound().settings());
        if (works(without, job.cable(), found, usable)) {
          alternatives.add(
              "to give up the fan's own call: a jumper "
                  + near.get(a)
                  + " to "
                  + near.get(b)
                  + " at the equipment frees a conductor, and the control must never be set to fan"
                  + " on");
          return;
        }
      }
    }
  }

  private void thickerCable(List<String> alternatives) {
    List<Cable.Conductor> thicker = new ArrayList<>();
    for (Cable.Conductor c : job.cable().conductors()) {
      thicker.add(
          new Cable.Conductor(c.name(), c.nearColour(), c.farColour(), c.ohms() * THICKER, 0));
    }
    Cable cable = new Cable(job.cable().name(), thicker, List.of());
    if (works(job.control(), cable, job.asFound(), usable)) {
      alternatives.add("a new cable of the same length, four gauge numbers thicker");
    }
  }

  private Control withStates(List<Control.State> states) {
    Control c = job.control();
    return new Control(
        c.title(), c.terminals(), c.supply(), c.contacts(), c.jumpers(), c.settings(), states);
  }

  private LandingPlan landed(List<Landed> landed) {
    return new LandingPlan(landed, job.asFound().jumpers(), job.asFound().settings());
  }

  private boolean works(Control control, Cable cable, LandingPlan asFound, Set<String> with) {
    Replacement other = new Replacement(job.equipment(), control, cable, job.doubtful(), asFound);
    return new LandingSearch(other, with, check, progress).run().plan() != null;
  }
}
