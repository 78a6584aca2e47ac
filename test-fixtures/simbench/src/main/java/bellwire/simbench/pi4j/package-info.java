@NullMarked
package bellwire.simbench.pi4j;

import org.jspecify.annotations.NullMarked;
