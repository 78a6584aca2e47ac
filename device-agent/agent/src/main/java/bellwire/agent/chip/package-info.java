@NullMarked
package bellwire.agent.chip;

import org.jspecify.annotations.NullMarked;
