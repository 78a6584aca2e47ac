/**
 * The whole system in virtual time: chips, agent, serial line, host, job file and the person who
 * works them, stepped from one seed while all that can go wrong does.
 */
@NullMarked
package bellwire.soak;

import org.jspecify.annotations.NullMarked;
