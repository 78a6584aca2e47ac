/** The netlist as ngspice decks, their runs, and the tables made of them. */
@NullMarked
package bellwire.hardware.deck;

import org.jspecify.annotations.NullMarked;
