/**
 * What is wrong with a cable, where, and how sure that is: a circuit of the cable with its faults,
 * fitted to all readings at once, and the odds between the explanations; breaks by capacitance.
 * Theory (25) to (29) and (30) to (37). Knows ports as numbers and readings as ratios; nothing of
 * the board that took them.
 */
@NullMarked
package bellwire.analysis.fault;

import org.jspecify.annotations.NullMarked;
