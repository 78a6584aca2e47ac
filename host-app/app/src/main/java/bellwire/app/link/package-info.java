@NullMarked
package bellwire.app.link;

import org.jspecify.annotations.NullMarked;
