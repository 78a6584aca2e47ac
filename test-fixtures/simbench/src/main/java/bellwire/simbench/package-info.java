@NullMarked
package bellwire.simbench;

import org.jspecify.annotations.NullMarked;
