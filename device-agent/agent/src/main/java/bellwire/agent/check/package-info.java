/** What the agent needs on a Pi, gone through one by one for {@code bellwire-agent check}. */
@NullMarked
package bellwire.agent.check;

import org.jspecify.annotations.NullMarked;
