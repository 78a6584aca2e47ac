@NullMarked
package bellwire.app.serial;

import org.jspecify.annotations.NullMarked;
