/** Page 6: a vigil begun, watched, and looked at again. */
@NullMarked
package bellwire.app.desk.vigil;

import org.jspecify.annotations.NullMarked;
