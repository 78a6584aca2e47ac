/** The eighth stop: the report as it will be printed, what is missing from it, and its files. */
@NullMarked
package bellwire.app.desk.report;

import org.jspecify.annotations.NullMarked;
