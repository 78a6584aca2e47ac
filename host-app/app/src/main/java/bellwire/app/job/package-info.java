/**
 * The job file: one SQLite database of what was measured at one customer's. Its tables are
 * described in docs/job-file.md, the choices in docs/decisions/0021-sample-store.md. The only
 * package that knows SQL.
 */
@NullMarked
package bellwire.app.job;

import org.jspecify.annotations.NullMarked;
