/**
 * What the agent records on its own disk, until a host has it. docs/agent-record.md: the format.
 */
@NullMarked
package bellwire.agent.record;

import org.jspecify.annotations.NullMarked;
