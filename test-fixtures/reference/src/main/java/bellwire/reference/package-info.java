/** Published tables and worked examples that tests check against, each with its source. */
@NullMarked
package bellwire.reference;

import org.jspecify.annotations.NullMarked;
