/**
 * Blocks set on pages, and the pages written as PDF. Lengths in points of 1/72 inch, from the top
 * left corner down.
 */
@NullMarked
package bellwire.app.document.page;

import org.jspecify.annotations.NullMarked;
