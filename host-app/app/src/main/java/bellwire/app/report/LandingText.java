package bellwire.app.report;

import bellwire.analysis.landing.Found;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.FuseResult;
import bellwire.analysis.loop.StateResult.LoadResult;
import bellwire.analysis.loop.StateResult.TransformerResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/** A landing check for people. */
public final class LandingText {
  private static final int STATE_WIDTH = 26;

  private final Installation installation;
  private final List<StateResult> states;
  private final List<Found> found;

  /**
   * @param states of the installation
   * @param found in them
   */
  public LandingText(Installation installation, List<StateResult> states, List<Found> found) {
    this.installation = installation;
    this.states = List.copyOf(states);
    this.found = List.copyOf(found);
  }

  /** The whole check, a line each. */
  public List<String> lines() {
    List<String> out = new ArrayList<>(landing(installation));
    out.add("");
    out.add("WHAT EACH CALL DOES");
    states.forEach(state -> out.addAll(state(state)));
    out.add("");
    out.addAll(supplies());
    out.add("");
    List<Found> faults = found.stream().filter(f -> !f.notice()).toList();
    List<Found> notices = found.stream().filter(Found::notice).toList();
    out.add(faults.isEmpty() ? "FINDINGS   none" : "FINDINGS");
    faults.forEach(f -> out.addAll(finding("  ! ", f)));
    if (!notices.isEmpty()) {
      out.add("WORTH KNOWING");
      notices.forEach(f -> out.addAll(finding("  - ", f)));
    }
    List<String> remedies = Remedies.lines(found.stream().map(Found::kind));
    if (!remedies.isEmpty()) {
      out.add("");
      out.addAll(remedies);
    }
    return out;
  }

  /** Who is landed on what, for a person with the wires in hand. */
  public static List<String> landing(Installation installation) {
    List<String> out = new ArrayList<>();
    out.addAll(Paragraph.hanging("  equipment  ", installation.equipment().title()));
    out.addAll(Paragraph.hanging("  control    ", installation.control().title()));
    out.add("");
    out.add("LANDING     at the equipment   at the control");
    for (LandingPlan.Landed landed : installation.plan().landed()) {
      double ohms = installation.cable().conductor(landed.conductor()).ohms();
      out.add(
          String.format(
              Locale.ROOT,
              "  %-9s %-18s %-16s %s",
              landed.conductor(),
              end(landed.near()),
              end(landed.far()),
              Double.isInfinite(ohms) ? "broken" : figure(ohms) + " ohm"));
    }
    for (Control.Jumper jumper : installation.plan().jumpers()) {
      String where = jumper.side() == Point.Side.NEAR ? "equipment" : "control";
      out.add("  jumper " + jumper.a() + " - " + jumper.b() + " at the " + where);
    }
    for (Map.Entry<String, String> e :
        new java.util.TreeMap<>(installation.plan().settings()).entrySet()) {
      out.add("  set: " + e.getKey() + " = " + e.getValue());
    }
    return out;
  }

  private static String end(@Nullable String terminal) {
    return Objects.requireNonNullElse(terminal, "free");
  }

  private List<String> state(StateResult state) {
    List<String> parts = new ArrayList<>();
    for (LoadResult load : state.loads()) {
      if (load.energised() != Energised.OFF || load.held()) {
        parts.add(words(load));
      }
    }
    if (!state.lit()) {
      parts.add(0, "THE CONTROL IS BLANK");
    }
    for (FuseResult fuse : state.fuses()) {
      if (fuse.opens().possible()) {
        parts.add(
            fuse.name() + " carries " + figure(fuse.amps()) + " A: it " + fuse.opens().words());
      }
    }
    for (TransformerResult t : state.transformers()) {
      if (t.overloaded()) {
        parts.add(
            String.format(
                Locale.ROOT,
                "%s OVERLOADED, %s A of %s A",
                t.transformer().name(),
                figure(t.amps()),
                figure(t.transformer().ratedAmps())));
      }
    }
    String name = state.state().name();
    String words = parts.isEmpty() ? "nothing" : String.join("; ", parts);
    if (name.length() <= STATE_WIDTH) {
      return Paragraph.hanging("  " + name + " ".repeat(STATE_WIDTH + 2 - name.length()), words);
    }
    List<String> out = new ArrayList<>(List.of("  " + name));
    out.addAll(Paragraph.hanging(" ".repeat(STATE_WIDTH + 4), words));
    return out;
  }

  /** The most that each transformer and each fuse carries, and when. */
  private List<String> supplies() {
    List<String> out = new ArrayList<>(List.of("SUPPLY     carries at most"));
    StateResult first = states.get(0);
    for (int i = 0; i < first.transformers().size(); i++) {
      int index = i;
      StateResult worst = worst(state -> state.transformers().get(index).amps());
      TransformerResult t = worst.transformers().get(i);
      out.add(carries(t.transformer().name(), t.amps(), t.transformer().ratedAmps(), worst));
    }
    for (int i = 0; i < first.fuses().size(); i++) {
      int index = i;
      StateResult worst = worst(state -> state.fuses().get(index).amps());
      FuseResult fuse = worst.fuses().get(i);
      out.add(carries(fuse.name(), fuse.amps(), fuse.ratedAmps(), worst));
    }
    if (first.fuses().isEmpty()) {
      out.add("  no fuse is described");
    }
    return out;
  }

  private StateResult worst(ToDoubleFunction<StateResult> amps) {
    return states.stream().max(Comparator.comparingDouble(amps)).orElseThrow();
  }

  private static String carries(String name, double amps, double rated, StateResult when) {
    return amps < 1e-3
        ? String.format(Locale.ROOT, "  %-26s   nothing", name)
        : String.format(
            Locale.ROOT,
            "  %-26s %5s A of %s A   %s",
            name,
            figure(amps),
            figure(rated),
            when.state().name());
  }

  /** What becomes of a load, with its figures. */
  public static String words(LoadResult load) {
    String volts = figure(load.volts()) + " V";
    return switch (load.energised()) {
      case ON -> load.load().name() + " " + volts + " " + figure(load.amps()) + " A";
      case DOUBTFUL -> load.load().name() + " MAY NOT PULL IN, " + volts;
      case CHATTERS -> load.load().name() + " CHATTERS";
      case OFF -> load.load().name() + " STAYS IN IF IT WAS IN, " + volts;
    };
  }

  /** To three digits, without an exponent. */
  public static String figure(double x) {
    double size = Math.abs(x);
    int digits = size >= 100 ? 0 : size >= 10 ? 1 : size >= 0.0995 ? 2 : 3;
    return String.format(Locale.ROOT, "%." + digits + "f", x);
  }

  private List<String> finding(String mark, Found f) {
    List<String> out =
        new ArrayList<>(Paragraph.hanging(mark, f.kind().title() + ": " + f.words()));
    if (!f.states().isEmpty() && f.states().size() < states.size()) {
      out.addAll(Paragraph.hanging("    when: ", String.join("; ", f.states())));
    }
    if (!f.path().isEmpty()) {
      out.addAll(Paragraph.hanging("    path: ", String.join(" > ", f.path())));
    }
    return out;
  }
}
