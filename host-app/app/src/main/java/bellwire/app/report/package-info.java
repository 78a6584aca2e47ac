@NullMarked
package bellwire.app.report;

import org.jspecify.annotations.NullMarked;
