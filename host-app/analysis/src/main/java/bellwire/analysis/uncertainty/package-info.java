@NullMarked
package bellwire.analysis.uncertainty;

import org.jspecify.annotations.NullMarked;
