/** Alternating-current circuits of a few dozen nodes, fuses and transformers. */
@NullMarked
package bellwire.analysis.circuit;

import org.jspecify.annotations.NullMarked;
