/**
 * Draws the board's schematic sheets, {@code hardware-notes/sheets/}, from the netlist, the parts
 * list and where {@code sheets-a.yaml} puts each part. Wires are found by the program. Coordinates
 * are in units of the grid, 1.27 mm, x to the right, y down, from the frame's upper left corner.
 */
@NullMarked
package bellwire.hardware.sheet;

import org.jspecify.annotations.NullMarked;
