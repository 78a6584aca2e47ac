/**
 * Vector drawings of surveys, landings and rehearsals, for the screen and for paper alike: nothing
 * but {@code java.awt.Graphics2D}, no window, no image.
 */
@NullMarked
package bellwire.app.drawing;

import org.jspecify.annotations.NullMarked;
