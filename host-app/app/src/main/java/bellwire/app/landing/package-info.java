/** Reads what a landing is made of: equipment, controls, plans, surveyed cables. */
@NullMarked
package bellwire.app.landing;

import org.jspecify.annotations.NullMarked;
