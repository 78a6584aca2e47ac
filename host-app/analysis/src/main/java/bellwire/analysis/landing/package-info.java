/** Judges a landing plan, proposes one, and explains symptoms by mistakes. */
@NullMarked
package bellwire.analysis.landing;

import org.jspecify.annotations.NullMarked;
