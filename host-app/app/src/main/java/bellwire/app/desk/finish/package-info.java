/** The seventh stop: the checklist of the craft, and photographs as found and as left. */
@NullMarked
package bellwire.app.desk.finish;

import org.jspecify.annotations.NullMarked;
