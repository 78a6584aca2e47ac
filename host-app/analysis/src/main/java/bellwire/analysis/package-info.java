@NullMarked
package bellwire.analysis;

import org.jspecify.annotations.NullMarked;
