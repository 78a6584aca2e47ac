@NullMarked
package bellwire.agent;

import org.jspecify.annotations.NullMarked;
