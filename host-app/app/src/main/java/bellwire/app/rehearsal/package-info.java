/**
 * Rehearsals: a control taken through every function while its terminals are watched, and the rules
 * that its calls and drop-outs must keep.
 */
@NullMarked
package bellwire.app.rehearsal;

import org.jspecify.annotations.NullMarked;
