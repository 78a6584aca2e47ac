@NullMarked
package bellwire.analysis.network;

import org.jspecify.annotations.NullMarked;
