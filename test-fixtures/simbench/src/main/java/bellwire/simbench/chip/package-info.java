@NullMarked
package bellwire.simbench.chip;

import org.jspecify.annotations.NullMarked;
