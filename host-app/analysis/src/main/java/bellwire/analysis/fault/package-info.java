/** Where along the run a fault sits, and how sure that is. */
@NullMarked
package bellwire.analysis.fault;

import org.jspecify.annotations.NullMarked;
