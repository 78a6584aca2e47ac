package bellwire.hardware;

import java.util.List;
import java.util.Map;

/**
 * A line of the parts list.
 *
 * @param pins the pins that a part of this line has, in the order of its kind
 * @param model lines of an ngspice deck; empty where decks leave the part out
 * @param faults single faults by name: what is altered in the deck, and to what
 * @param spice parameters or the model's name, for {@code <spice>} in the model
 * @param spread half-widths of what differs from part to part: {@code relative}, {@code
 *     offset-volts}
 * @param ratings absolute maxima, unit last in the name
 * @param check what to look up in another type's data sheet; empty where any will do
 * @param draws {@code amps} of each supply that it is on, {@code led-volts} that its light-emitting
 *     diode leaves at the least, {@code efficiency} of a supply; from memory
 * @param barrierFarads across the isolation, of one part; 0 where it does not cross it
 */
public record PartLine(
    String name,
    String kind,
    List<String> pins,
    List<String> model,
    Map<String, Map<String, Double>> faults,
    String spice,
    String requirement,
    String reason,
    Map<String, Double> spread,
    Map<String, Double> ratings,
    String example,
    String alternative,
    String check,
    Map<String, Double> draws,
    double barrierFarads) {}
