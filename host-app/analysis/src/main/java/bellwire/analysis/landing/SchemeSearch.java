package bellwire.analysis.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.Point;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * All schemes under given jumpers and settings in which every state runs what it must, the control
 * lives, nothing runs that may not, and no connection can be left out: as far as ideal copper
 * tells. The first state that is not served yet gets one more connection, each of those its
 * terminals can have; a branch ends where a load runs that may not or a supply is shorted, for no
 * further connection ends that. Theory (91).
 */
final class SchemeSearch {
  private static final int TICK_NODES = 1024;
  private static final int MOST_NODES = 2_000_000;

  /**
   * States of the control that differ in nothing that matters here.
   *
   * @param pairs of terminals of the control that its contacts join
   * @param terminals a bit each: those that the state depends on
   */
  private record Case(List<int[]> pairs, long must, long allowed, int terminals) {}

  private final NearEffects effects;
  private final Scheme.Fittings fittings;
  private final BooleanSupplier more;
  private final int nears;
  private final int fars;
  private final List<Case> cases = new ArrayList<>();
  private final int hot;
  private final int common;
  private final Groups before;
  private final Groups joined;
  private final int[] group;
  private final boolean[][] out;
  private final List<Connection> made = new ArrayList<>();
  private long nodes;
  private boolean cutOff;

  /**
   * @param more asked now and then; false stops the search
   */
  SchemeSearch(
      Equipment equipment,
      Control control,
      NearEffects effects,
      Scheme.Fittings fittings,
      BooleanSupplier more) {
    this.effects = effects;
    this.fittings = fittings;
    this.more = more;
    List<String> near = equipment.terminals();
    List<String> far = control.terminals();
    nears = near.size();
    fars = far.size();
    Control.Supply supply = control.supply();
    boolean fed = supply.kind() == Control.Supply.Kind.COMMON;
    hot = fed ? far.indexOf(supply.hot()) : -1;
    common = fed ? far.indexOf(supply.common()) : -1;
    before = new Groups(nears + fars);
    for (Jumper jumper : fittings.jumpers()) {
      boolean here = jumper.side() == Point.Side.NEAR;
      List<String> names = here ? near : far;
      int offset = here ? 0 : nears;
      before.join(offset + names.indexOf(jumper.a()), offset + names.indexOf(jumper.b()));
    }
    joined = before.copy();
    group = new int[nears];
    out = new boolean[fars][nears];
    Set<List<Long>> seen = new HashSet<>();
    for (Control.State state : control.states()) {
      addCase(state, equipment.wantedOn(state.call()), control, seen);
    }
    cases.sort(Comparator.comparingInt(c -> Integer.bitCount(c.terminals())));
  }

  private void addCase(Control.State state, Wanted wanted, Control control, Set<List<Long>> seen) {
    List<int[]> pairs = new ArrayList<>();
    int terminals = (hot < 0 ? 0 : 1 << hot) | (common < 0 ? 0 : 1 << common);
    long closed = 0;
    for (Control.Closing closing : state.closes()) {
      if (!closing.under(fittings.settings())) {
        continue;
      }
      for (Control.ControlContact contact : control.contacts()) {
        if (contact.terminal().equals(closing.terminal())) {
          int a = control.terminals().indexOf(contact.supply());
          int b = control.terminals().indexOf(contact.terminal());
          pairs.add(new int[] {a, b});
          terminals |= 1 << a | 1 << b;
          closed |= 1L << b;
        }
      }
    }
    for (int f = 0; f < fars; f++) {
      for (int g = 0; g < fars; g++) {
        if ((terminals & 1 << f) != 0 && before.of(nears + f) == before.of(nears + g)) {
          terminals |= 1 << g;
        }
      }
    }
    long must = effects.bits(wanted.must());
    long allowed = must | effects.bits(wanted.may()) | effects.harmless();
    if (seen.add(List.of(closed, must, allowed))) {
      cases.add(new Case(pairs, must, allowed, terminals));
    }
  }

  /** Tells every scheme, in no particular order, none twice. */
  void run(Consumer<Scheme> found) {
    if (legal()) {
      extend(found);
    }
  }

  /** Whether schemes may have been left out. */
  boolean cutOff() {
    return cutOff;
  }

  private void extend(Consumer<Scheme> found) {
    if (++nodes % TICK_NODES == 0 && !more.getAsBoolean()) {
      throw new Planner.Stopped();
    }
    if (nodes > MOST_NODES) {
      cutOff = true;
      return;
    }
    Case lacking = firstNotServed();
    if (lacking == null) {
      if (!superfluous()) {
        found.accept(new Scheme(List.copyOf(made), fittings));
      }
      return;
    }
    List<Connection> next = candidates(lacking);
    for (Connection c : next) {
      made.add(c);
      if (legal()) {
        extend(found);
      }
      made.remove(made.size() - 1);
      out[c.far()][c.near()] = true;
    }
    next.forEach(c -> out[c.far()][c.near()] = false);
  }

  /**
   * Connections that may help a state: between what its contacts join and an end of a transformer
   * or a load that does not run yet, not joined already.
   */
  private List<Connection> candidates(Case lacking) {
    NearEffects.Effect effect = effect(lacking);
    long wanting = (lacking.must() | effects.switching()) & ~effect.possible();
    List<Connection> all = new ArrayList<>();
    for (int far = 0; far < fars; far++) {
      if ((lacking.terminals() & 1 << far) == 0) {
        continue;
      }
      int by = joined.of(nears + far);
      int net = by < nears ? effect.netOfTerminal()[by] : -1;
      for (int near = 0; near < nears; near++) {
        boolean of = effects.supplies(near) || (effects.behind(near) & wanting) != 0;
        if (of && !out[far][near] && effect.netOfTerminal()[near] != net) {
          all.add(new Connection(near, far));
        }
      }
    }
    return all;
  }

  private @Nullable Case firstNotServed() {
    for (Case c : cases) {
      if (!served(c)) {
        return c;
      }
    }
    return null;
  }

  /** Whether connections short nothing and run nothing that may not run. */
  boolean harmless(List<Connection> connections) {
    made.addAll(connections);
    boolean harmless = legal();
    made.clear();
    return harmless;
  }

  /** Whether connections serve every state, even where some of them could be left out. */
  boolean serves(List<Connection> connections) {
    made.addAll(connections);
    boolean serves = legal() && firstNotServed() == null;
    made.clear();
    return serves;
  }

  /** Whether no state shorts a supply or runs what may not run. */
  private boolean legal() {
    for (Case c : cases) {
      NearEffects.Effect effect = effect(c);
      if (effect.shorted() || (effect.sure() & ~c.allowed()) != 0) {
        return false;
      }
    }
    return true;
  }

  /** Whether a state can run what it must, with the control alive. */
  private boolean served(Case c) {
    NearEffects.Effect effect = effect(c);
    if ((c.must() & ~effect.possible()) != 0) {
      return false;
    }
    if (hot < 0) {
      return true;
    }
    int a = joined.of(nears + hot);
    int b = joined.of(nears + common);
    return a < nears && b < nears && effect.across(a, b);
  }

  private NearEffects.Effect effect(Case c) {
    joined.set(before);
    for (Connection m : made) {
      joined.join(m.near(), nears + m.far());
    }
    for (int[] pair : c.pairs()) {
      joined.join(nears + pair[0], nears + pair[1]);
    }
    for (int n = 0; n < nears; n++) {
      group[n] = joined.of(n);
    }
    return effects.of(group);
  }

  /** Whether a connection could be left out. */
  private boolean superfluous() {
    for (int i = 0; i < made.size(); i++) {
      Connection without = made.remove(i);
      boolean needless = firstNotServed() == null;
      made.add(i, without);
      if (needless) {
        return true;
      }
    }
    return false;
  }
}
