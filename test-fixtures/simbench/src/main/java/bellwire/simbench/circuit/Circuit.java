package bellwire.simbench.circuit;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * A circuit as a list of its elements, for whoever wants to write or inspect it. Node numbers are
 * indices into {@link #nodeNames()}.
 */
public final class Circuit implements Netlist {
  /** Conductance from every node to common, so that a floating node has a voltage; siemens. */
  public static final double GMIN_SIEMENS = 1e-13;

  /** One element; fields as in {@link Netlist}. */
  public sealed interface Element {}

  public record Resistor(int a, int b, double ohms) implements Element {}

  public record Capacitor(int a, int b, double farads) implements Element {}

  public record Emf(int plus, int minus, double ohms, Drive drive) implements Element {}

  public record Winding(Inductor inductor) implements Element {}

  public record Diode(int anode, int cathode, double volts, double ohms) implements Element {}

  public record Injection(int into, double amps) implements Element {}

  public record Coupling(int node, int reference, double farads, Drive drive) implements Element {}

  private final List<String> nodeNames;
  private final double[] omegas;
  private final List<Element> elements = new ArrayList<>();

  /**
   * @param omegas angular frequency of each tone, rad/s
   */
  public Circuit(List<String> nodeNames, double[] omegas) {
    this.nodeNames = List.copyOf(nodeNames);
    this.omegas = omegas.clone();
  }

  public List<String> nodeNames() {
    return nodeNames;
  }

  public double[] omegas() {
    return omegas.clone();
  }

  public List<Element> elements() {
    return Collections.unmodifiableList(elements);
  }

  @Override
  public void resistor(int a, int b, double ohms) {
    elements.add(new Resistor(a, b, ohms));
  }

  @Override
  public void capacitor(int a, int b, double farads) {
    elements.add(new Capacitor(a, b, farads));
  }

  @Override
  public void emf(int plus, int minus, double ohms, Drive drive) {
    elements.add(new Emf(plus, minus, ohms, drive));
  }

  @Override
  public void inductor(Inductor inductor) {
    elements.add(new Winding(inductor));
  }

  @Override
  public void diode(int anode, int cathode, double volts, double ohms, boolean conducting) {
    elements.add(new Diode(anode, cathode, volts, ohms));
  }

  @Override
  public void inject(int into, double amps) {
    elements.add(new Injection(into, amps));
  }

  @Override
  public void coupling(int node, int reference, double farads, Drive drive) {
    elements.add(new Coupling(node, reference, farads, drive));
  }
}
