/**
 * The desk: the one window in which a visit is worked, stop by stop. Here is the shell: rail, band,
 * notices, progress, themes, scale, and the pages of the visit and of making safe; each further
 * page has a package of its own below. What runs on which thread is in
 * docs/decisions/0031-the-desk.md.
 */
@NullMarked
package bellwire.app.desk;

import org.jspecify.annotations.NullMarked;
