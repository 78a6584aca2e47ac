/** Vigils: hours of watching for what comes and goes, kept in a job file and told of in words. */
@NullMarked
package bellwire.app.vigil;

import org.jspecify.annotations.NullMarked;
