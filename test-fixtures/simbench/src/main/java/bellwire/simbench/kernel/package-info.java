/**
 * Simulated kernel devices: a Pi's SPI and GPIO as another process finds them, for its own
 * providers.
 */
@NullMarked
package bellwire.simbench.kernel;

import org.jspecify.annotations.NullMarked;
