@NullMarked
package bellwire.app;

import org.jspecify.annotations.NullMarked;
