package bellwire.analysis.survey;

import bellwire.analysis.network.Network;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What an open phase would have found on a cable, put together by hand. */
public final class OpenFindings {
  private final List<Integer> ports;
  private final List<List<Integer>> clusters = new ArrayList<>();
  private final Quantity[][] distances = new Quantity[Ports.COUNT][Ports.COUNT];
  private final List<double[]> leaks = new ArrayList<>();
  private final List<Quantity> farads = new ArrayList<>();
  private double leakFloorSiemens = 1e-11;

  /** Conductors on these ports, none touching another. */
  public OpenFindings(Integer... ports) {
    this.ports = List.of(ports);
    for (int port : ports) {
      clusters.add(new ArrayList<>(List.of(port)));
      farads.add(new Quantity(1.5e-9, 1e-12, "F"));
    }
  }

  /**
   * None touches or leaks to another.
   *
   * @param farads by port in their order, null where not read
   */
  static OpenResult apart(
      List<Integer> ports, List<@Nullable Quantity> farads, Quantity strayFarads) {
    Leak[][] leaks = new Leak[ports.size()][ports.size()];
    for (Leak[] row : leaks) {
      Arrays.fill(row, new Leak(0, 1e-11));
    }
    double[] rest = new double[Ports.COUNT];
    Arrays.fill(rest, 1e9);
    return new OpenResult(
        ports,
        farads,
        strayFarads,
        rest,
        ports.stream().map(List::of).toList(),
        new Quantity[Ports.COUNT][Ports.COUNT],
        leaks,
        new Network(Ports.COUNT),
        1);
  }

  /** These two are of one cluster, so far apart. */
  public OpenFindings joined(int a, int b, double ohms) {
    List<Integer> mine = cluster(a);
    List<Integer> other = cluster(b);
    if (mine != other) {
      farads.remove(clusters.indexOf(other));
      clusters.remove(other);
      mine.addAll(other);
      mine.sort(null);
    }
    distances[a][b] = Quantity.ohms(ohms, ohms / 1000);
    distances[b][a] = distances[a][b];
    return this;
  }

  public OpenFindings leaking(int a, int b, double ohms, double uOhms) {
    leaks.add(new double[] {a, b, 1 / ohms, uOhms / ohms / ohms});
    return this;
  }

  /** The standard uncertainty of every conductance that is none. */
  public OpenFindings seesDownTo(double siemens) {
    leakFloorSiemens = siemens;
    return this;
  }

  public OpenFindings farads(int port, double value) {
    farads.set(clusters.indexOf(cluster(port)), new Quantity(value, 1e-12, "F"));
    return this;
  }

  private List<Integer> cluster(int port) {
    return clusters.stream().filter(c -> c.contains(port)).findFirst().orElseThrow();
  }

  public OpenResult result() {
    Network network = new Network(Ports.COUNT);
    Leak[][] leak = new Leak[clusters.size()][clusters.size()];
    for (Leak[] row : leak) {
      Arrays.fill(row, new Leak(0, leakFloorSiemens));
    }
    for (double[] each : leaks) {
      int a = clusters.indexOf(cluster((int) each[0]));
      int b = clusters.indexOf(cluster((int) each[1]));
      leak[a][b] = new Leak(each[2], each[3]);
      leak[b][a] = leak[a][b];
      network.join((int) each[0], (int) each[1], each[2]);
    }
    for (int a : ports) {
      for (int b : ports) {
        if (a < b && distances[a][b] != null) {
          network.join(a, b, 1 / distances[a][b].value());
        }
      }
    }
    double[] rest = new double[Ports.COUNT];
    Arrays.fill(rest, 1e9);
    return new OpenResult(
        ports,
        farads,
        new Quantity(15e-12, 1e-12, "F"),
        rest,
        clusters,
        distances,
        leak,
        network,
        1);
  }
}
