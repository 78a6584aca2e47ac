package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** Proposes the landing with the fewest moved conductors that the check finds nothing against. */
public final class Planner {
  /** A bridge of more than this carries less than 1.4 mA at 28 V (CP): it spoils no conductor. */
  static final double BRIDGE_OHMS = 20_000;

  /** Conductors that are not sound in one plan. */
  private static final int MOST_UNSOUND = 3;

  /** Told how far the search is. */
  @FunctionalInterface
  public interface Progress {
    Progress NONE = (moves, schemes) -> true;

    /**
     * @param moves all landings with fewer moves have been ruled out
     * @param schemes ways to connect the terminals that were followed so far
     * @return false to stop
     */
    boolean more(int moves, long schemes);
  }

  /** The search was stopped by its {@link Progress}. */
  public static final class Stopped extends RuntimeException {
    private static final long serialVersionUID = 1;

    Stopped() {
      super("stopped");
    }
  }

  private final Replacement job;
  private final Function<Installation, List<Found>> check;
  private final Progress progress;
  private final Map<String, String> unsound;

  Planner(Replacement job, Function<Installation, List<Found>> check, Progress progress) {
    verify(job);
    this.job = job;
    this.check = check;
    this.progress = progress;
    unsound = unsound(job);
  }

  /**
   * @throws Stopped when told to
   * @throws IllegalArgumentException where the landing as found does not fit cable or equipment
   */
  public static Proposal plan(Replacement replacement, Progress progress) {
    return new Planner(replacement, LandingCheck::check, progress).propose();
  }

  /** First with sound conductors alone; then with the fewest that are not, as the check allows. */
  Proposal propose() {
    Set<String> sound = new LinkedHashSet<>();
    List<String> others = new ArrayList<>();
    for (Cable.Conductor c : job.cable().conductors()) {
      if (!unsound.containsKey(c.name())) {
        sound.add(c.name());
      } else if (!c.broken()) {
        others.add(c.name());
      }
    }
    LandingSearch.Outcome outcome = search(sound);
    int lacking = Math.max(1, outcome.needed().size() - sound.size());
    for (int more = lacking; more <= MOST_UNSOUND && outcome.plan() == null; more++) {
      LandingSearch.Outcome best = withUnsound(sound, others, more);
      outcome = best == null ? outcome : best;
    }
    LandingPlan plan = outcome.plan();
    return plan == null ? impossible(outcome, sound) : proposal(plan, outcome);
  }

  /** The fewest moves with so many of the others; null where none passes. */
  private LandingSearch.@Nullable Outcome withUnsound(
      Set<String> usable, List<String> others, int more) {
    if (more == 0) {
      LandingSearch.Outcome outcome = search(usable);
      return outcome.plan() == null ? null : outcome;
    }
    LandingSearch.Outcome best = null;
    for (int i = 0; i + more <= others.size(); i++) {
      Set<String> with = new LinkedHashSet<>(usable);
      with.add(others.get(i));
      LandingSearch.Outcome one = withUnsound(with, others.subList(i + 1, others.size()), more - 1);
      if (one != null && (best == null || moves(one) < moves(best))) {
        best = one;
      }
    }
    return best;
  }

  private LandingSearch.Outcome search(Set<String> usable) {
    return new LandingSearch(job, usable, check, progress).run();
  }

  private int moves(LandingSearch.Outcome outcome) {
    LandingPlan plan = outcome.plan();
    return plan == null ? Integer.MAX_VALUE : moves(plan).size();
  }

  private Proposal impossible(LandingSearch.Outcome outcome, Set<String> sound) {
    return new Proposal(
        null,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        unsound.entrySet().stream()
            .map(e -> e.getKey() + " is not counted: " + e.getValue() + ".")
            .toList(),
        new Shortage(job, check, progress, sound).of(outcome),
        ColourConvention.disagreements(job.cable(), job.asFound()),
        outcome.proved(),
        outcome.effort());
  }

  private Proposal proposal(LandingPlan plan, LandingSearch.Outcome outcome) {
    return new Proposal(
        plan,
        moves(plan),
        changes(plan),
        outcome.found(),
        spares(plan),
        remarks(plan),
        null,
        ColourConvention.disagreements(job.cable(), plan),
        outcome.proved(),
        outcome.effort());
  }

  private List<Proposal.Move> moves(LandingPlan plan) {
    List<Proposal.Move> moves = new ArrayList<>();
    for (Landed was : job.asFound().landed()) {
      Landed now = landed(plan, was.conductor());
      String near = was.near();
      if (near == null ? now.near() != null : !near.equals(now.near())) {
        moves.add(new Proposal.Move(was.conductor(), Point.Side.NEAR, near, now.near()));
      }
      if (!Letters.keeps(was.far(), now.far(), job.control().terminals())) {
        moves.add(new Proposal.Move(was.conductor(), Point.Side.FAR, was.far(), now.far()));
      }
    }
    return moves;
  }

  private static Landed landed(LandingPlan plan, String conductor) {
    for (Landed l : plan.landed()) {
      if (l.conductor().equals(conductor)) {
        return l;
      }
    }
    throw new IllegalArgumentException("conductor=" + conductor);
  }

  /** Every jumper of the new control, what changes at the equipment, and settings that matter. */
  private List<Proposal.Change> changes(LandingPlan plan) {
    List<Proposal.Change> changes = new ArrayList<>();
    for (Control.Jumper jumper : job.control().jumpers()) {
      changes.add(new Proposal.JumperChange(jumper, plan.jumpers().contains(jumper)));
    }
    for (Control.Jumper jumper : job.asFound().jumpers()) {
      if (jumper.side() == Point.Side.NEAR && !plan.jumpers().contains(jumper)) {
        changes.add(new Proposal.JumperChange(jumper, false));
      }
    }
    for (Control.Setting setting : job.control().settings()) {
      String choice = plan.settings().get(setting.name());
      if (choice != null && matters(setting, plan)) {
        changes.add(new Proposal.SettingChange(setting.name(), choice));
      }
    }
    return changes;
  }

  private boolean matters(Control.Setting setting, LandingPlan plan) {
    Set<Object> closings = new HashSet<>();
    for (String choice : setting.choices()) {
      Map<String, String> settings = new LinkedHashMap<>(plan.settings());
      settings.put(setting.name(), choice);
      closings.add(FittingChoices.closings(job.control(), settings));
    }
    return closings.size() > 1;
  }

  private List<Proposal.Spare> spares(LandingPlan plan) {
    List<Proposal.Spare> spares = new ArrayList<>();
    for (Landed was : job.asFound().landed()) {
      Landed now = landed(plan, was.conductor());
      String far = now.far();
      if ((was.near() == null || was.far() == null) && now.near() != null && far != null) {
        spares.add(new Proposal.Spare(was.conductor(), far, proof(was.conductor())));
      }
    }
    return spares;
  }

  private String proof(String conductor) {
    String reason = unsound.get(conductor);
    Cable.Conductor c = job.cable().conductor(conductor);
    if (reason != null) {
      return "not sound: " + reason;
    }
    String ohms = String.format(Locale.ROOT, "%.2f ohm", c.ohms());
    return c.uOhms() > 0 ? "surveyed as sound, " + ohms : ohms + " assumed: survey it first";
  }

  private List<String> remarks(LandingPlan plan) {
    List<String> remarks = new ArrayList<>();
    Set<String> used = new HashSet<>();
    for (Landed now : plan.landed()) {
      if (now.near() != null && now.far() != null) {
        used.add(now.conductor());
      } else if (now.near() != null) {
        remarks.add(
            now.conductor()
                + " stays under "
                + now.near()
                + " at the equipment and is free at the control: cap it there, it may be live.");
      } else if (now.far() != null) {
        remarks.add(
            now.conductor()
                + " goes under "
                + now.far()
                + " at the control and is free at the equipment: cap it there, it may be live.");
      }
    }
    remarks.addAll(together(plan));
    remarks.addAll(unsoundRemarks(used));
    return remarks;
  }

  private static List<String> together(LandingPlan plan) {
    Map<String, List<String>> by = new LinkedHashMap<>();
    for (Landed l : plan.landed()) {
      if (l.near() != null && l.far() != null) {
        String ends = l.near() + " at the equipment and " + l.far() + " at the control";
        by.computeIfAbsent(ends, k -> new ArrayList<>()).add(l.conductor());
      }
    }
    List<String> remarks = new ArrayList<>();
    by.forEach(
        (ends, conductors) -> {
          if (conductors.size() > 1) {
            remarks.add(String.join(" and ", conductors) + " are both under " + ends + ".");
          }
        });
    return remarks;
  }

  private List<String> unsoundRemarks(Set<String> used) {
    List<String> remarks = new ArrayList<>();
    for (Cable.Conductor c : job.cable().conductors()) {
      String reason = unsound.get(c.name());
      if (reason != null) {
        remarks.add(
            used.contains(c.name())
                ? c.name() + " is used though it is not sound: " + reason + "."
                : c.name() + " is not used and lifted at both ends: " + reason + ".");
      }
    }
    for (Cable.Bridge leak : job.cable().bridges()) {
      String other = leak.b();
      boolean landed = used.contains(leak.a()) || used.contains(other);
      if (leak.ohms() > BRIDGE_OHMS && landed) {
        remarks.add(
            String.format(
                Locale.ROOT,
                "%s leaks to %s (%.0f kohm): too little to matter at 24 V, and it may grow.",
                leak.a(),
                other == null ? "bare metal" : other,
                leak.ohms() / 1000));
      }
    }
    return remarks;
  }

  /** Conductors that are not to be used, each with the reason. */
  private static Map<String, String> unsound(Replacement job) {
    Map<String, String> reasons = new LinkedHashMap<>(job.doubtful());
    for (Cable.Bridge bridge : job.cable().bridges()) {
      String other = bridge.b();
      if (bridge.ohms() <= BRIDGE_OHMS) {
        reasons.putIfAbsent(bridge.a(), "it touches " + (other == null ? "bare metal" : other));
        if (other != null) {
          reasons.putIfAbsent(other, "it touches " + bridge.a());
        }
      }
    }
    for (Cable.Conductor c : job.cable().conductors()) {
      if (c.broken()) {
        reasons.put(c.name(), "it is broken");
      }
    }
    return reasons;
  }

  private static void verify(Replacement job) {
    List<String> landed = job.asFound().landed().stream().map(Landed::conductor).toList();
    List<String> conductors = job.cable().conductors().stream().map(Cable.Conductor::name).toList();
    if (!landed.equals(conductors)) {
      throw new IllegalArgumentException("conductors=" + conductors + " landed=" + landed);
    }
    if (new HashSet<>(conductors).size() < conductors.size()) {
      throw new IllegalArgumentException("conductors=" + conductors);
    }
    for (Landed l : job.asFound().landed()) {
      String near = l.near();
      if (near != null && !job.equipment().terminals().contains(near)) {
        throw new IllegalArgumentException("conductor=" + l.conductor() + " near=" + near);
      }
    }
    int terminals = job.control().terminals().size();
    if (terminals > Integer.SIZE - 2) {
      throw new IllegalArgumentException("terminals=" + terminals);
    }
  }
}
