/**
 * The pages of {@code hardware-notes/}: their tables and figures, computed from the board's data.
 */
@NullMarked
package bellwire.hardware.notes;

import org.jspecify.annotations.NullMarked;
