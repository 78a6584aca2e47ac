/**
 * A vigil as tables in files that a notebook opens. The only package that knows Parquet; why that,
 * is in docs/decisions/0026-export.md.
 */
@NullMarked
package bellwire.app.export;

import org.jspecify.annotations.NullMarked;
