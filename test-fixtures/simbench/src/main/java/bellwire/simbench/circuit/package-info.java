/**
 * Linear circuits of resistors, capacitors and independent sources, solved exactly between switch
 * events.
 */
@NullMarked
package bellwire.simbench.circuit;

import org.jspecify.annotations.NullMarked;
