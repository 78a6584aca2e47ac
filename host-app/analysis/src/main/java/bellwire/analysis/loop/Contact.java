package bellwire.analysis.loop;

/**
 * A contact that a load of the same equipment switches.
 *
 * @param load name of the load whose pulling in switches it; where that is missing it stays as it
 *     is
 * @param normallyOpen whether it is open while the load is dropped out
 */
public record Contact(String name, Point a, Point b, String load, boolean normallyOpen)
    implements Element {}
