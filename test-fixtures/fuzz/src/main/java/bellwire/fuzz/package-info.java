/**
 * Everything that a stranger can hand to Bellwire, taken as bytes, with what must hold whatever
 * they are. docs/fuzzing.md says how it is run.
 */
@NullMarked
package bellwire.fuzz;

import org.jspecify.annotations.NullMarked;
