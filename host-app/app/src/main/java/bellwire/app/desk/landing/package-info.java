/** The desk's page of landings: two strips, findings as one edits, calls, a plan, symptoms. */
@NullMarked
package bellwire.app.desk.landing;

import org.jspecify.annotations.NullMarked;
