/** A simulated device on a real serial line. */
@NullMarked
package bellwire.simbench.serve;

import org.jspecify.annotations.NullMarked;
