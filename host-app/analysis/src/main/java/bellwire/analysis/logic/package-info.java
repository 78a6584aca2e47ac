/**
 * Signal temporal logic over piecewise constant signals: formulas, their notation, and a monitor
 * that follows them as time goes on. docs/temporal-logic.md has the semantics.
 */
@NullMarked
package bellwire.analysis.logic;

import org.jspecify.annotations.NullMarked;
