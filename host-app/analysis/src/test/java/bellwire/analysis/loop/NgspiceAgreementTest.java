package bellwire.analysis.loop;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.circuit.Ngspice;
import bellwire.analysis.loop.FixPoint.Phase;
import bellwire.analysis.loop.InstallationNetlist.Piece;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every node's voltage and every element's current of drawn installations, in every condition that
 * their states come to, against ngspice, an independent program, on a netlist that is written from
 * the installation's records.
 */
class NgspiceAgreementTest {
  private static final int PLANS = Integer.getInteger("bellwire.plans", 40);
  private static final long SEED = Long.getLong("bellwire.seed", 1);
  private static final int AT_ONCE = 20;
  private static final double AGREEMENT = 1e-3;

  /** Behind a megohm, where nothing flows, ngspice's nodal equations round to some 1e-7 V. */
  private static final double NO_VOLTS = 1e-6;

  private static final double NO_AMPS = 1e-9;

  @TempDir Path directory;

  private int conditions;
  private int live;
  private int voltages;
  private int currents;
  private double worst;

  /** A condition, how this program solves it, and how it is written for the other. */
  private record Case(long seed, LoopCircuit circuit, Solved solved, InstallationNetlist netlist) {}

  @Test
  void drawnInstallations() throws Exception {
    Ngspice.require();
    for (long first = SEED; first < SEED + PLANS; first += AT_ONCE) {
      StringBuilder text = new StringBuilder("control loops\n");
      List<Case> cases = new ArrayList<>();
      for (long seed = first; seed < Math.min(first + AT_ONCE, SEED + PLANS); seed++) {
        write(seed, cases, text);
      }
      text.append(InstallationNetlist.analysis()).append(".end\n");
      Map<String, Complex> spice = Ngspice.oneFrequency(directory, text.toString());
      cases.forEach(c -> compare(c, spice));
      conditions += cases.size();
    }
    System.out.printf(
        "seeds %d to %d: %d conditions, %d with more than 0.1 A, %d voltages, %d currents,"
            + " of 1 V, 1 mA or more they disagree by %.1e%n",
        SEED, SEED + PLANS - 1, conditions, live, voltages, currents, worst);
    assertThat(live).isGreaterThan(2 * PLANS);
  }

  private static void write(long seed, List<Case> cases, StringBuilder text) {
    Installation installation = RandomInstallation.draw(seed);
    LoopCircuit circuit = new LoopCircuit(installation);
    FixPoint fixPoint = new FixPoint(circuit, installation);
    List<Control.ControlContact> contacts = installation.control().contacts();
    Set<Condition> conditions = new LinkedHashSet<>();
    for (Control.State state : installation.control().states()) {
      long closes = 0;
      for (Control.Closing closing : state.closes()) {
        if (closing.under(installation.plan().settings())) {
          closes |= LoopCircuit.closing(contacts, closing.terminal());
        }
      }
      fixPoint.fromRest(closes).stream().map(Phase::condition).forEach(conditions::add);
      fixPoint.fromAllPulledIn(closes).stream().map(Phase::condition).forEach(conditions::add);
    }
    for (Condition condition : conditions) {
      cases.add(
          new Case(
              seed,
              circuit,
              circuit.solve(condition),
              new InstallationNetlist(installation, condition, "c" + cases.size(), text)));
    }
  }

  private void compare(Case c, Map<String, Complex> spice) {
    List<Point> points = c.circuit.points();
    for (Point a : points) {
      for (Point b : points) {
        if (c.netlist.has(a) && c.netlist.has(b) && c.netlist.joined(a, b)) {
          double theirs = c.netlist.volts(spice, a).subtract(c.netlist.volts(spice, b)).norm();
          double ours = c.solved.volts(c.circuit.node(a), c.circuit.node(b));
          check(c, a + " to " + b, new Complex(ours), new Complex(theirs), NO_VOLTS);
          voltages++;
        } else {
          assertThat(a.equals(b) ? 0 : c.solved.volts(c.circuit.node(a), c.circuit.node(b)))
              .as("seed=%d %s %s", c.seed, a, b)
              .isZero();
        }
      }
    }
    List<Piece> left = new ArrayList<>(c.netlist.pieces());
    List<Branch> branches = c.circuit.branches();
    boolean flows = false;
    for (int i = 0; i < branches.size(); i++) {
      if (c.solved.conducts(i)) {
        Piece piece = take(left, branches.get(i), points);
        check(c, piece.name(), c.solved.current(i), c.netlist.amps(spice, piece), NO_AMPS);
        currents++;
        flows |= c.solved.amps(i) > 0.1;
      }
    }
    live += flows ? 1 : 0;
    assertThat(left).as("seed=%d: in the netlist alone", c.seed).isEmpty();
  }

  private static Piece take(List<Piece> left, Branch branch, List<Point> points) {
    for (Piece p : left) {
      if (p.name().equals(branch.name())
          && p.a().equals(points.get(branch.a()))
          && p.b().equals(points.get(branch.b()))) {
        left.remove(p);
        return p;
      }
    }
    throw new AssertionError("not in the netlist: " + branch);
  }

  private void check(Case c, String what, Complex ours, Complex theirs, double nothing) {
    double off = ours.subtract(theirs).norm();
    double share = off / (theirs.norm() + nothing / AGREEMENT);
    if (theirs.norm() > nothing * 1e6) {
      worst = Math.max(worst, share);
    }
    assertThat(share)
        .as("seed=%d %s ours=%s ngspice=%s", c.seed, what, ours, theirs)
        .isLessThan(AGREEMENT);
  }
}
