/**
 * Simulated room controls: what they ask for, when their contacts move, what stands on their
 * terminals, and the defects they may have.
 */
@NullMarked
package bellwire.simbench.control;

import org.jspecify.annotations.NullMarked;
