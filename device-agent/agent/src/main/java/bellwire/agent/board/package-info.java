@NullMarked
package bellwire.agent.board;

import org.jspecify.annotations.NullMarked;
