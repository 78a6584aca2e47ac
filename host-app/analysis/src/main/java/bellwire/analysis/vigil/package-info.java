/** What hours of watching show: events, what went together, trends, rates, before and after. */
@NullMarked
package bellwire.analysis.vigil;

import org.jspecify.annotations.NullMarked;
