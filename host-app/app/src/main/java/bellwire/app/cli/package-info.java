/** The command line: the one place that writes to standard output. */
@NullMarked
package bellwire.app.cli;

import org.jspecify.annotations.NullMarked;
