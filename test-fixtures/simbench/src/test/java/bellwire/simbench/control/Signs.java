package bellwire.simbench.control;

import bellwire.simbench.control.Course.Stretch;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * Tells a control's defects from its edges alone, by the limits stated for healthy controls, in a
 * course through {@link Course#everything}. Knows nothing of the control's inside.
 */
final class Signs {
  /** The latest drop-out, with the contacts' own time. */
  private static final double DROP_OUT_SECONDS = 2.02;

  private static final double OVERRUN_SECONDS = 90;

  private final Course course;
  private final Kind kind;
  private final double heat;
  private final double second;
  private final double heatEnd;
  private final double cool;
  private final double coolEnd;
  private final double powerOff;
  private final double powerOn;
  private final double coolLast;
  private final double fanOn;
  private final double fanAuto;
  private final double emergency;
  private final double off;

  private Signs(Course course) {
    this.course = course;
    kind = course.setup().kind();
    double[] at = course.steps().stream().mapToDouble(Course.Step::seconds).toArray();
    int i = 0;
    heat = at[i++];
    second = kind.secondHeat() ? at[i++] : Double.NaN;
    heatEnd = at[i++];
    cool = at[i++];
    coolEnd = at[i++];
    i++;
    powerOff = at[i++];
    powerOn = at[i++];
    coolLast = at[i++];
    fanOn = at[i++];
    fanAuto = at[i++];
    emergency = kind.emergency() ? at[i++] : Double.NaN;
    off = at[i];
  }

  static Set<Defect> of(Course course) {
    Signs signs = new Signs(course);
    Set<Defect> found = EnumSet.noneOf(Defect.class);
    for (Defect defect : Defect.values()) {
      if (defect.canShow(signs.kind) && signs.shows(defect)) {
        found.add(defect);
      }
    }
    return found;
  }

  private boolean shows(Defect defect) {
    return switch (defect) {
      case WRONG_EQUIPMENT -> begins(kind.heatPump() ? "W1" : "Y1", heat, heat + 5.02);
      case VALVE_REVERSED -> valveWrong();
      case WELDED_CONTACT ->
          kind.terminals().stream().anyMatch(t -> course.closed(t, course.endNanos() - 1));
      case NO_REST -> shortestRest(0, powerOff) < 300;
      case SHORT_REST_AFTER_POWER_LOSS -> shortestRest(powerOn, powerOn + 60) < 300;
      case FAN_NOT_CALLED -> fanMissing();
      case CALLS_MEET -> meet();
      case STAGE_MISSING -> stageMissing();
      case LATE_DROP_OUT -> late();
      case CHATTER ->
          kind.terminals().stream()
              .anyMatch(t -> course.stretches(t).stream().anyMatch(s -> s.seconds() < 1));
    };
  }

  private boolean begins(String terminal, double from, double until) {
    return course.calls(terminal).stream()
        .anyMatch(call -> call.fromNanos() >= from * 1e9 && call.fromNanos() <= until * 1e9);
  }

  private boolean closed(String terminal, double seconds) {
    return course.closed(terminal, Math.round(seconds * 1e9));
  }

  private boolean valveWrong() {
    for (Stretch call : course.calls("Y1")) {
      boolean cooling = call.fromNanos() > cool * 1e9;
      boolean right = (kind == Kind.HEAT_PUMP_B) != cooling;
      if (course.closed(kind.valve(), call.fromNanos()) != right
          || course.closed(kind.valve(), call.untilNanos() - 1_000_000) != right) {
        // At a loss of power all contacts open together.
        if (Math.abs(call.untilNanos() * 1e-9 - powerOff) > 0.3) {
          return true;
        }
      }
    }
    return false;
  }

  /** The shortest pause of Y1 that ends between two times. */
  private double shortestRest(double from, double until) {
    List<Stretch> all = course.stretches("Y1");
    double shortest = Double.POSITIVE_INFINITY;
    for (int i = 2; i < all.size(); i += 2) {
      double end = all.get(i).untilNanos() * 1e-9;
      if (end >= from && end <= until) {
        shortest = Math.min(shortest, all.get(i).seconds());
      }
    }
    return shortest;
  }

  private boolean fanMissing() {
    for (Stretch call : course.calls("Y1")) {
      if (!course.closed("G", Math.min(call.fromNanos() + 1_200_000_000L, call.untilNanos() - 1))) {
        return true;
      }
    }
    return kind == Kind.ELECTRIC_HEAT
        && course.calls("W1").stream().anyMatch(call -> !course.closed("G", call.fromNanos()));
  }

  private boolean meet() {
    boolean pump = kind == Kind.HEAT_PUMP_O || kind == Kind.HEAT_PUMP_B;
    for (Stretch w1 : course.calls("W1")) {
      if (pump && w1.untilNanos() > cool * 1e9 && w1.fromNanos() < coolLast * 1e9) {
        return true;
      }
      for (Stretch y1 : course.calls("Y1")) {
        if (!pump && w1.fromNanos() < y1.untilNanos() && y1.fromNanos() < w1.untilNanos()) {
          return true;
        }
      }
    }
    return false;
  }

  private boolean stageMissing() {
    if (!kind.secondHeat()) {
      return !begins("W1", heat, heat + 5.02) && !begins("Y1", heat, heat + 5.02);
    }
    return !begins(kind == Kind.TWO_STAGE ? "W2" : "W1", second, second + 610);
  }

  private boolean late() {
    for (String terminal : kind.terminals()) {
      double allowed = DROP_OUT_SECONDS + (terminal.equals("G") ? OVERRUN_SECONDS : 0);
      for (double end : new double[] {heatEnd, coolEnd, coolLast, off}) {
        boolean mayStay = terminal.equals(kind.valve()) && end != off;
        if (!mayStay && closed(terminal, end + allowed)) {
          return true;
        }
      }
      if (closed(terminal, powerOff + 0.3)
          || (terminal.equals("G") && closed("G", fanAuto + 2.02))) {
        return true;
      }
    }
    return false;
  }

  /** What a healthy control must do besides, in words; empty where all is well. */
  static String missed(Course course) {
    Signs s = new Signs(course);
    if (s.kind == Kind.HEAT_ONLY
        && !(course.calls("Y1").isEmpty() && course.calls("G").isEmpty())) {
      return "cooling terminals called";
    }
    if (!s.begins(s.kind.heatPump() ? "Y1" : "W1", s.heat + 0.2, s.heat + 5.02)) {
      return "no heat";
    }
    if (s.kind.cools() && !s.begins("Y1", s.cool + 0.2, s.cool + 5.02)) {
      return "no cooling";
    }
    if (s.kind.cools() && !s.begins("G", s.fanOn + 0.2, s.fanOn + 5.02)) {
      return "no fan";
    }
    if (s.kind.emergency()
        && (!s.begins("W1", s.emergency + 0.2, s.emergency + 5.02)
            || s.begins("Y1", s.emergency, s.off))) {
      return "no emergency heat";
    }
    if (s.kind.secondHeat()) {
      String second = s.kind == Kind.TWO_STAGE ? "W2" : "W1";
      double first = course.calls(s.kind == Kind.TWO_STAGE ? "W1" : "Y1").get(0).fromNanos() * 1e-9;
      if (s.begins(second, 0, first + 30)) {
        return "second stage too soon";
      }
    }
    if (s.kind.cools() && s.shortestRest(0, 1e6) > 305 + 420) {
      return "no restart";
    }
    return "";
  }
}
