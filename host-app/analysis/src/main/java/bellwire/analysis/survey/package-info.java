@NullMarked
package bellwire.analysis.survey;

import org.jspecify.annotations.NullMarked;
