/**
 * The whole control loop: equipment, cable, control, and how they are landed on one another; what
 * each call of the control really does.
 */
@NullMarked
package bellwire.analysis.loop;

import org.jspecify.annotations.NullMarked;
