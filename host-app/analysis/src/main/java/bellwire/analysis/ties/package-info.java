/**
 * Telling conductors apart without a plug: rounds of joining far ends in pairs, and what the near
 * end makes of them. docs/ties.md has the theorem and its proof.
 */
@NullMarked
package bellwire.analysis.ties;

import org.jspecify.annotations.NullMarked;
