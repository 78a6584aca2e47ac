@NullMarked
package bellwire.app.bench;

import org.jspecify.annotations.NullMarked;
