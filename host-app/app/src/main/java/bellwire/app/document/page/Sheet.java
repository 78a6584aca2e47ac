package bellwire.app.document.page;

import java.util.List;

/** One page with all that is on it. */
public record Sheet(double width, double height, List<Placed> placed) {}
