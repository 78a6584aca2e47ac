package bellwire.analysis.vigil;

/**
 * To whom something happened.
 *
 * @param ports that took part, bit 0 for P1, of calls for X1, bit {@link Touch#METAL} for M
 * @param others one of these did too, or, with ports 0, it was one of these; 0 where all are known
 */
public record Subject(Happening happening, int ports, int others) {}
