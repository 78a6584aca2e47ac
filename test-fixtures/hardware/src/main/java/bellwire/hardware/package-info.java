/**
 * The sensing board's netlist and parts list as data, from {@code hardware-notes/}, and the rules
 * that they keep.
 */
@NullMarked
package bellwire.hardware;

import org.jspecify.annotations.NullMarked;
