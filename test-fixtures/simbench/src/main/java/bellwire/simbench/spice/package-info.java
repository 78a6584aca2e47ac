/** A circuit written out as a SPICE netlist. */
@NullMarked
package bellwire.simbench.spice;

import org.jspecify.annotations.NullMarked;
