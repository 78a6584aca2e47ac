/** From the call-sense connector's raw samples to the levels of a control's terminals. */
@NullMarked
package bellwire.analysis.calls;

import org.jspecify.annotations.NullMarked;
