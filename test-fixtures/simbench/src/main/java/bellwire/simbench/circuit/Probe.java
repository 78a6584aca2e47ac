package bellwire.simbench.circuit;

/**
 * What a pair of taps shows of the observed nodes: k1·v(o1) + k2·v(o2) + offset.
 *
 * @param o1 index among the observed nodes
 * @param k1 weight of the first node
 * @param o2 index of the second node
 * @param k2 weight of the second node, 0 for none
 * @param offsetVolts added
 */
public record Probe(int o1, double k1, int o2, double k2, double offsetVolts) {
  public static Probe node(int observed) {
    return new Probe(observed, 1, observed, 0, 0);
  }
}
