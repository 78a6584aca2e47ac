package bellwire.app.survey;

/**
 * How a survey identifies far ends by ties.
 *
 * @param conductors of the cable; 0 for as many as are found
 * @param everyTied whether every conductor is to be in a tie, at the cost of some more
 */
public record TieChoice(int conductors, boolean everyTied) {}
