@NullMarked
package bellwire.agent.serial;

import org.jspecify.annotations.NullMarked;
