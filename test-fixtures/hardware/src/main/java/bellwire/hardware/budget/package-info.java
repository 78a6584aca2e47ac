/** The sensing board's uncertainty budgets, from its values by a circuit of their own. */
@NullMarked
package bellwire.hardware.budget;

import org.jspecify.annotations.NullMarked;
