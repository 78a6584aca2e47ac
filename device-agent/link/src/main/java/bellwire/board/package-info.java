@NullMarked
package bellwire.board;

import org.jspecify.annotations.NullMarked;
