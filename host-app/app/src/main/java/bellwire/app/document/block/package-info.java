/** A document as a tree of blocks, made once and set both on pages and as HTML. */
@NullMarked
package bellwire.app.document.block;

import org.jspecify.annotations.NullMarked;
