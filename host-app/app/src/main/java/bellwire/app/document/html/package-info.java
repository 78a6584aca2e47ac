/** Blocks as one HTML file that needs no script and no other file. */
@NullMarked
package bellwire.app.document.html;

import org.jspecify.annotations.NullMarked;
