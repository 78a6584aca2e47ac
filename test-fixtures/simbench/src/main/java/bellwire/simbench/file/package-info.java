/** Bench files: a cable, its faults, plug and surroundings, read with line-numbered errors. */
@NullMarked
package bellwire.simbench.file;

import org.jspecify.annotations.NullMarked;
