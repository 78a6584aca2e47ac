@NullMarked
package bellwire.app.survey;

import org.jspecify.annotations.NullMarked;
