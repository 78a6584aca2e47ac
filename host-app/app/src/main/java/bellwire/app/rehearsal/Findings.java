package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.analysis.logic.Verdict;
import bellwire.analysis.rules.Occasion;
import bellwire.analysis.rules.Ruling;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;

/** From broken rules to what is wrong with the control, in plain words. */
public final class Findings {

  /**
   * A defect found.
   *
   * @param rulings of the rules that it broke, the telling one first
   */
  public record Finding(String name, String says, String remedy, List<Ruling> rulings) {}

  /** A contact that is too short in its call once or twice does not chatter yet. */
  private static final int CHATTER_TIMES = 3;

  private final Rehearsal rehearsal;
  private final List<Ruling> broken;
  private final Set<String> open = new LinkedHashSet<>();
  private final List<Finding> found = new ArrayList<>();

  private Findings(Rehearsal rehearsal, List<Ruling> rulings) {
    this.rehearsal = rehearsal;
    broken = rulings.stream().filter(r -> r.verdict() == Verdict.BROKEN).toList();
    broken.forEach(r -> open.add(r.rule().name()));
  }

  static List<Finding> of(Rehearsal rehearsal, List<Ruling> rulings) {
    Findings findings = new Findings(rehearsal, rulings);
    findings.contacts();
    findings.known();
    findings.general();
    return findings.found;
  }

  /** Whether a rule's name is meant; a wanted name may end in an asterisk. */
  static boolean matches(String wanted, String rule) {
    return wanted.endsWith("*")
        ? rule.startsWith(wanted.substring(0, wanted.length() - 1))
        : wanted.equals(rule);
  }

  /** What is wrong with a contact or its delay; other rules of its terminal break with it. */
  private void contacts() {
    for (Terminal t : rehearsal.terminals()) {
      String name = t.name();
      if (isOpen("calls-last-" + name) || isOpen("pauses-last-" + name)) {
        List<String> rules = List.of("calls-last-" + name, "pauses-last-" + name);
        boolean often = timesBroken(rules) >= CHATTER_TIMES;
        add(
            often ? "chatter" : "short-call",
            t.words()
                + (often
                    ? " opens and closes faster than any call."
                    : " came or went for less than a second."),
            "Look for a loose clamp or a weak battery first; if it stays, change the control.",
            rules);
        if (often) {
          dropFrom(found.get(found.size() - 1), t);
        }
      }
      if (isOpen("opens-" + name)) {
        boolean closes = t.active() == Level.ON;
        add(
            closes ? "welded-contact" : "never-at-rest",
            t.words()
                + (closes
                    ? " stays on when nothing asks for it: its contact does not open."
                    : " stays off when nothing asks for it, and its rest is on."),
            closes
                ? "Change the control; a shorted load may have welded the contact, so look for one"
                    + " first."
                : "Look at the control's setting for this output, and at the wire to its terminal.",
            List.of("opens-" + name));
        dropFrom(found.get(found.size() - 1), t);
      }
      if (isOpen("releases-" + name) && !anyOpen("unasked-" + name + "-*")) {
        add(
            "late-drop-out",
            t.words() + " drops out too late.",
            "Look at the control's delays; a contact that sticks gets worse.",
            List.of("releases-" + name));
        dropFrom(found.get(found.size() - 1), t);
      }
    }
  }

  private boolean anyOpen(String wanted) {
    return open.stream().anyMatch(b -> matches(wanted, b));
  }

  private long timesBroken(List<String> rules) {
    return broken.stream()
        .filter(r -> rules.contains(r.rule().name()))
        .flatMap(r -> r.telling().stream())
        .filter(o -> o.verdict() == Verdict.BROKEN)
        .count();
  }

  /** What broke since then and speaks of the terminal needs no finding of its own. */
  private void dropFrom(Finding cause, Terminal t) {
    long beginMicros =
        cause.rulings().stream()
            .flatMap(r -> r.telling().stream())
            .filter(o -> o.verdict() == Verdict.BROKEN)
            .mapToLong(Occasion::earliestMicros)
            .min()
            .orElse(Long.MAX_VALUE);
    for (Ruling r : broken) {
      if (r.rule().facts().stream().anyMatch(fact -> speaksOf(fact, t))
          && firstBroken(r) >= beginMicros) {
        open.remove(r.rule().name());
      }
    }
  }

  private static boolean speaksOf(String fact, Terminal t) {
    return fact.equals(t.name()) || fact.endsWith(" " + t.name());
  }

  private static long firstBroken(Ruling r) {
    return r.telling().stream()
        .filter(o -> o.verdict() == Verdict.BROKEN)
        .mapToLong(Occasion::latestMicros)
        .min()
        .orElse(Long.MAX_VALUE);
  }

  /** The file's own, in its order. */
  private void known() {
    for (Rehearsal.Pattern p : rehearsal.findings()) {
      Predicate<String> isBroken = wanted -> open.stream().anyMatch(b -> matches(wanted, b));
      if (p.all().stream().allMatch(isBroken)
          && (p.any().isEmpty() || p.any().stream().anyMatch(isBroken))
          && p.none().stream().noneMatch(isBroken)) {
        List<String> names = new ArrayList<>(p.all());
        names.addAll(p.any());
        add(p.name(), p.says(), p.remedy(), names);
        drop(p.covers().toArray(String[]::new));
      }
    }
  }

  /** What a broken rule means where nothing better is known. */
  private void general() {
    for (Terminal t : rehearsal.terminals()) {
      String name = t.name();
      if (anyOpen("unasked-" + name + "-*")) {
        add(
            "unasked-call",
            t.words() + " comes when nothing asks for it.",
            "Look at the control's settings for this equipment.",
            List.of("unasked-" + name + "-*"));
        drop("releases-" + name);
      }
      boolean fan = t.role() == Role.FAN;
      if (fan) {
        open.removeIf(b -> b.startsWith("comes-" + name) && anotherMissing(b, t));
      }
      if (anyOpen("comes-" + name + "-*")) {
        add(
            fan ? "fan-not-called" : "stage-missing",
            t.words() + " does not come when it should.",
            fan
                ? "Look at the control's fan setting for this equipment."
                : "Look at the control's number of stages and its equipment setting.",
            List.of("comes-" + name + "-*"));
      }
      if (isOpen("firm-" + name)) {
        add(
            "weak-output",
            t.words() + " shows a voltage too weak for a call.",
            "A control that steals power or switches with semiconductors needs a load: switch the"
                + " dummy load on, or look for leakage.",
            List.of("firm-" + name));
      }
    }
    for (Ruling r : broken) {
      if (isOpen(r.rule().name())) {
        add(r.rule().name(), r.rule().says(), "", List.of(r.rule().name()));
      }
    }
  }

  /** Whether what the fan would come with did not come in that step either. */
  private boolean anotherMissing(String rule, Terminal fan) {
    String step = rule.substring(("comes-" + fan.name()).length());
    return rehearsal.terminals().stream()
        .filter(t -> t.role() != Role.FAN)
        .anyMatch(
            t -> broken.stream().anyMatch(r -> r.rule().name().equals("comes-" + t.name() + step)));
  }

  private boolean isOpen(String rule) {
    return open.contains(rule);
  }

  private void drop(String... names) {
    for (String name : names) {
      open.removeIf(b -> matches(name, b));
    }
  }

  private void add(String name, String says, String remedy, List<String> rules) {
    List<Ruling> rulings =
        broken.stream()
            .filter(r -> open.contains(r.rule().name()))
            .filter(r -> rules.stream().anyMatch(wanted -> matches(wanted, r.rule().name())))
            .toList();
    found.add(new Finding(name, says, remedy, rulings));
    drop(rules.toArray(String[]::new));
  }
}
