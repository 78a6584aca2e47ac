@NullMarked
package bellwire.analysis.copper;

import org.jspecify.annotations.NullMarked;
