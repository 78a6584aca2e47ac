/**
 * What is still attached to a cable: coils, secondaries, capacitors, diodes, a second cable, told
 * from plain copper by their transients, and a landing compared before and after.
 */
@NullMarked
package bellwire.analysis.attached;

import org.jspecify.annotations.NullMarked;
