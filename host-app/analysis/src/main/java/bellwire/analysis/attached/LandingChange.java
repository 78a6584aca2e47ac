package bellwire.analysis.attached;

import bellwire.analysis.findings.ChangeFinding;
import java.util.List;

/**
 * A difference between two landings.
 *
 * @param kind of difference
 * @param ports where
 * @param words what was seen, with its figures
 */
public record LandingChange(ChangeFinding kind, List<Integer> ports, String words) {}
