/**
 * Text set in lines: fonts and what each lacks, both directions of writing, scripts whose letters
 * join, lines broken where they may be. Sizes in points of 1/72 inch.
 */
@NullMarked
package bellwire.app.document.type;

import org.jspecify.annotations.NullMarked;
