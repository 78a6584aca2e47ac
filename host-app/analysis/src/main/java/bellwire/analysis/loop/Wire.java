package bellwire.analysis.loop;

/** Copper within the equipment, such as a conductor of the outdoor cable, or a bond to metal. */
public record Wire(String name, Point a, Point b, double ohms) implements Element {}
