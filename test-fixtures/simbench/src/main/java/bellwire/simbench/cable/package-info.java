/** From a bench to copper: cable, far end, surroundings and the board's analogue side. */
@NullMarked
package bellwire.simbench.cable;

import org.jspecify.annotations.NullMarked;
