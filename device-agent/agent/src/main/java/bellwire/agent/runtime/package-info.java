@NullMarked
package bellwire.agent.runtime;

import org.jspecify.annotations.NullMarked;
