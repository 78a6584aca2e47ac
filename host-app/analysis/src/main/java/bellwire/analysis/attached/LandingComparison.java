package bellwire.analysis.attached;

import bellwire.analysis.findings.ChangeFinding;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * Compares a landing with what it was before the conductors were lifted. What the equipment joins
 * is in both and drops out; a winding tells itself from copper. Theory (46) to (48).
 */
public final class LandingComparison {
  /** Copper joins two ports by less. */
  private static final double COPPER_OHMS = 5;

  /** Two conductors nearer than this before were joined by copper then. */
  private static final double JUMPER_OHMS = 0.12;

  /** A resistance that falls below this share of what it was has copper beside it. */
  private static final double FALL_SHARE = 0.85;

  private static final double RISE_FACTOR = 3;
  private static final double LEAST_OHMS = 0.03;
  private static final double SIGMAS = 4;

  /** Contacts at both ends are fresh: 2 to 20 mohm each. */
  private static final double CONTACT_OHMS = 0.1;

  /** Of a conductor's arm: spread of the fit among what the equipment joins. */
  private static final double ARM_SHARE = 0.05;

  /** A conductor whose clamp is open leaves the port's stray capacitance. */
  private static final double LOST_SHARE = 0.3;

  private final Landing before;
  private final Landing after;

  public LandingComparison(Landing before, Landing after) {
    this.before = before;
    this.after = after;
  }

  /** What is different; empty for a landing like the one before. */
  public List<LandingChange> changes() {
    List<LandingChange> changes = new ArrayList<>();
    pair(true, ChangeFinding.JOINED, changes);
    pair(false, ChangeFinding.PARTED, changes);
    if (changes.isEmpty()) {
      // Copper that is new or gone changes what can be told of the arms: it is cleared first.
      clamps(changes);
    }
    return changes;
  }

  /**
   * The pair that came nearest, or went farthest from being joined by copper. One new piece of
   * copper brings other pairs nearer too; it lies between the two that are nearest now.
   */
  private void pair(boolean joined, ChangeFinding kind, List<LandingChange> changes) {
    Landing near = joined ? after : before;
    Landing far = joined ? before : after;
    near.joined().stream()
        .filter(p -> changed(p.a(), p.b(), near, far, joined))
        .min(Comparator.comparingDouble(Landing.Joined::ohms))
        .ifPresent(
            p -> {
              String was = words(before.ohms(p.a(), p.b()));
              String is = words(after.ohms(p.a(), p.b()));
              List<Integer> ports = List.of(p.a(), p.b());
              changes.add(
                  new LandingChange(
                      kind, ports, Ports.names(ports) + ": " + was + " before, " + is + " now"));
            });
  }

  private static boolean changed(int a, int b, Landing near, Landing far, boolean joined) {
    double low = near.ohms(a, b);
    double high = far.ohms(a, b);
    double u = Math.hypot(near.u(a, b), far.u(a, b));
    boolean copper = low < COPPER_OHMS && high - low > Math.max(LEAST_OHMS, SIGMAS * u);
    boolean before = low < JUMPER_OHMS && high < JUMPER_OHMS;
    return copper && !before && low < (joined ? FALL_SHARE : 1 / RISE_FACTOR) * high;
  }

  private void clamps(List<LandingChange> changes) {
    for (int port : before.ports()) {
      Double was = before.farads().get(port);
      Double is = after.farads().get(port);
      boolean lost =
          was != null && (is == null ? !after.ports().contains(port) : is < LOST_SHARE * was);
      Quantity arm = before.arms().get(port);
      Quantity now = after.arms().get(port);
      List<Integer> ports = List.of(port);
      if (lost) {
        changes.add(
            new LandingChange(
                ChangeFinding.GONE,
                ports,
                Ports.name(port) + ": hardly any capacitance is left of it"));
      } else if (arm != null && now == null && !after.arms().isEmpty()) {
        changes.add(
            new LandingChange(
                ChangeFinding.LOOSE,
                ports,
                Ports.name(port) + ": no path to the tie plug any more"));
      } else if (arm != null && now != null && looser(arm, now)) {
        changes.add(
            new LandingChange(
                ChangeFinding.LOOSE,
                ports,
                Ports.name(port)
                    + ": "
                    + words(arm.value())
                    + " to the tie plug before, "
                    + words(now.value())
                    + " now"));
      }
    }
  }

  private static boolean looser(Quantity arm, Quantity now) {
    double more = now.value() - arm.value();
    return more > CONTACT_OHMS + ARM_SHARE * arm.value()
        && more > SIGMAS * Math.hypot(arm.u(), now.u());
  }

  private static String words(double ohms) {
    return Double.isInfinite(ohms) ? "apart" : String.format(Locale.ROOT, "%.3g ohm", ohms);
  }
}
