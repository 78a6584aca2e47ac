package bellwire.analysis.fault;

import java.util.BitSet;

/**
 * One four-terminal reading with the current reversed, theory (3): voltage over current.
 *
 * @param stage index of the far-end state it was taken in
 * @param a port driven, then returned
 * @param b port returned, then driven
 * @param p port the voltage is taken from
 * @param q port it is taken to
 * @param held ports at common meanwhile, neither driven nor returned
 * @param ohms the reading
 * @param u its standard uncertainty, ohm
 */
public record Ratio(int stage, int a, int b, int p, int q, BitSet held, double ohms, double u) {}
