@NullMarked
package bellwire.link;

import org.jspecify.annotations.NullMarked;
