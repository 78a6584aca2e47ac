@NullMarked
package bellwire.agent.pi;

import org.jspecify.annotations.NullMarked;
