package bellwire.app.desk.landing;

import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point.Side;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Which end of which conductor is in hand, and where it would go: what keys and pointer work on.
 */
final class Held {
  /** What a person is told, and what to do now. */
  interface Told {
    void say(String words);

    void land(String conductor, Side side, @Nullable String terminal);
  }

  private final Told told;
  private @Nullable LandingDraft draft;
  private Which which = Which.AS_PLANNED;
  private String conductor = "";
  private Side side = Side.NEAR;
  private boolean moving;
  private @Nullable String target;
  private String typed = "";

  Held(Told told) {
    this.told = told;
  }

  /** Another landing, or another plan of it; the end in hand stays where it can. */
  void show(LandingDraft shown, Which plan) {
    boolean same = plan == which;
    draft = shown;
    which = plan;
    if (conductors().stream().noneMatch(c -> c.equals(conductor))) {
      conductor = conductors().isEmpty() ? "" : conductors().get(0);
    }
    if (moving && !(same && (target == null || terminals().contains(target)))) {
      drop();
    }
  }

  String conductor() {
    return conductor;
  }

  Side side() {
    return side;
  }

  /** Whether the end is lifted and waits for a terminal. */
  boolean moving() {
    return moving;
  }

  /** Where it would go; null: it would be free. */
  @Nullable String target() {
    return target;
  }

  List<String> terminals() {
    LandingDraft now = draft;
    return now == null ? List.of() : now.terminals(which, side);
  }

  private List<String> conductors() {
    LandingDraft now = draft;
    return now == null
        ? List.of()
        : now.plan(which).landed().stream().map(Landed::conductor).toList();
  }

  /** Where the end is; null for a free one. */
  @Nullable String terminal() {
    LandingDraft now = draft;
    if (now == null) {
      return null;
    }
    for (Landed l : now.plan(which).landed()) {
      if (l.conductor().equals(conductor)) {
        return side == Side.NEAR ? l.near() : l.far();
      }
    }
    return null;
  }

  void select(String name, Side end) {
    conductor = name;
    side = end;
    drop();
    tell();
  }

  /** The other end of the same conductor. */
  void end(Side end) {
    select(conductor, end);
  }

  /** The next conductor, or while moving the next terminal; the last is followed by none. */
  void step(int by) {
    if (moving) {
      List<@Nullable String> places = new ArrayList<>(terminals());
      places.add(null);
      int at = places.indexOf(target) + by;
      target = places.get(Math.max(0, Math.min(places.size() - 1, at)));
      typed = "";
    } else {
      List<String> all = conductors();
      int at = Math.max(0, Math.min(all.size() - 1, all.indexOf(conductor) + by));
      conductor = all.isEmpty() ? "" : all.get(at);
    }
    tell();
  }

  /** Lifts the end, or lands it where it would go. */
  void enter() {
    if (conductor.isEmpty()) {
      return;
    }
    if (moving) {
      land(target);
    } else {
      moving = true;
      target = terminal() == null && !terminals().isEmpty() ? terminals().get(0) : terminal();
      typed = "";
      tell();
    }
  }

  /** Puts it back where it was; false where it was not lifted. */
  boolean drop() {
    boolean was = moving;
    moving = false;
    typed = "";
    target = null;
    return was;
  }

  /** A letter of a terminal; F frees where no terminal goes on with it. */
  void type(char letter) {
    String longer = typed + String.valueOf(letter).toUpperCase(Locale.ROOT);
    String alone = String.valueOf(letter).toUpperCase(Locale.ROOT);
    String wanted = first(longer) != null ? longer : alone;
    String found = first(wanted);
    if (found != null) {
      moving = true;
      typed = wanted;
      target = found;
      tell();
    } else if (alone.equals("F")) {
      land(null);
    } else {
      told.say("No terminal begins with " + wanted + " here. " + words());
    }
  }

  private @Nullable String first(String prefix) {
    for (String terminal : terminals()) {
      if (terminal.equalsIgnoreCase(prefix)) {
        return terminal;
      }
    }
    for (String terminal : terminals()) {
      if (terminal.toUpperCase(Locale.ROOT).startsWith(prefix)) {
        return terminal;
      }
    }
    return null;
  }

  /** Lands it; null frees it. */
  void land(@Nullable String terminal) {
    drop();
    if (!conductor.isEmpty()) {
      told.land(conductor, side, terminal);
      tell();
    }
  }

  void tell() {
    told.say(words());
  }

  private String words() {
    if (conductor.isEmpty()) {
      return "No conductors yet.";
    }
    String end = conductor + (side == Side.NEAR ? " at the equipment" : " at the control");
    if (moving) {
      String to = target;
      return end
          + ": goes "
          + (to == null ? "to a free end" : "under " + to)
          + ". Enter lands it, arrows or letters choose, Esc leaves it.";
    }
    String at = terminal();
    return end
        + ": "
        + (at == null ? "free" : "under " + at)
        + ". Type a terminal's letters or Enter to move it, F frees it.";
  }
}
