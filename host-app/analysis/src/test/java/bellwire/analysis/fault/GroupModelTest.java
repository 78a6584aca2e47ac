package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.circuit.Ngspice;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The circuit of a group against ngspice, an independent program, and against differences. */
class GroupModelTest {
  private static final int CIRCUITS = Integer.getInteger("bellwire.groups", 300);
  private static final int AT_ONCE = 50;
  private static final long FIRST_SEED = 1;

  /** No instrument takes a reading without a path for its current. */
  private static final double LEAST_AMPS = 0.01;

  private static final double AGREEMENT = 1e-6;

  @TempDir Path directory;

  @Test
  void readingsAgreeWithNgspice() throws Exception {
    Ngspice.require();
    double worst = 0;
    int compared = 0;
    int all = 0;
    for (long first = FIRST_SEED; first < FIRST_SEED + CIRCUITS; first += AT_ONCE) {
      StringBuilder text = new StringBuilder("groups of bridged conductors\n");
      text.append(".options reltol=1e-9 abstol=1e-18 vntol=1e-15\n");
      List<RandomCircuit> circuits = new ArrayList<>();
      List<CircuitNetlist> netlists = new ArrayList<>();
      for (long seed = first; seed < first + AT_ONCE; seed++) {
        RandomCircuit circuit = new RandomCircuit(seed);
        CircuitNetlist netlist = new CircuitNetlist(circuit, "c" + seed, text);
        for (int k = 0; k < circuit.ratios.size(); k++) {
          netlist.write(k);
        }
        circuits.add(circuit);
        netlists.add(netlist);
      }
      text.append(".op\n.end\n");
      Map<String, Double> volts = Ngspice.operatingPoint(directory, text.toString());
      for (int c = 0; c < AT_ONCE; c++) {
        double[] ours = circuits.get(c).model.at(circuits.get(c).point, false).values();
        for (int k = 0; k < ours.length; k++) {
          all++;
          if (netlists.get(c).amps(k, volts) < LEAST_AMPS) {
            continue;
          }
          compared++;
          double spice = netlists.get(c).ohms(k, volts);
          double share = Math.abs(ours[k] - spice) / Math.abs(spice);
          worst = Math.max(worst, share);
          assertThat(share)
              .as("seed=%d reading=%d ours=%s spice=%s", first + c, k, ours[k], spice)
              .isLessThan(AGREEMENT);
        }
      }
    }
    System.out.printf(
        "seeds %d to %d: %d of %d readings carry current, worst disagreement %.1e%n",
        FIRST_SEED, FIRST_SEED + CIRCUITS - 1, compared, all, worst);
    assertThat(compared).isGreaterThan(all / 2);
  }

  /**
   * Five points; readings keep some 1e-13 of their size and of a megohm that all have in common.
   */
  @Test
  void slopesAgreeWithCentralDifferences() {
    double worst = 0;
    int compared = 0;
    for (long seed = FIRST_SEED; seed < FIRST_SEED + CIRCUITS; seed++) {
      RandomCircuit circuit = new RandomCircuit(seed);
      GroupModel.Predicted at = circuit.model.at(circuit.point, true);
      for (int i = 0; i < circuit.point.length; i++) {
        double step = 1e-3 * Math.max(Math.abs(circuit.point[i]), 0.1);
        double[] above = moved(circuit, i, step);
        double[] below = moved(circuit, i, -step);
        double[] above2 = moved(circuit, i, 2 * step);
        double[] below2 = moved(circuit, i, -2 * step);
        for (int k = 0; k < above.length; k++) {
          double value = at.values()[k];
          if (!(Math.abs(value) < 1e5)) {
            continue;
          }
          double difference = (8 * (above[k] - below[k]) - (above2[k] - below2[k])) / (12 * step);
          double slope = at.slope(k, i);
          double allowed = 1e-5 * Math.abs(slope) + (1e-13 * Math.abs(value) + 1e-9) / step;
          compared++;
          double share = Math.abs(difference - slope) / allowed;
          assertThat(share)
              .as("seed=%d reading=%d parameter=%d slope=%s", seed, k, i, slope)
              .isLessThan(1);
          worst = Math.max(worst, share);
        }
      }
    }
    System.out.printf(
        "seeds %d to %d: %d slopes, worst share of what rounding allows %.2f%n",
        FIRST_SEED, FIRST_SEED + CIRCUITS - 1, compared, worst);
    assertThat(compared).isGreaterThan(100 * CIRCUITS);
  }

  private static double[] moved(RandomCircuit circuit, int i, double step) {
    double[] at = circuit.point.clone();
    at[i] += step;
    return circuit.model.at(at, false).values();
  }
}
