package bellwire.app.report;

import bellwire.analysis.fault.Explanation;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** What would explain all readings, by probability, for a terminal. */
final class ExplanationText {
  private static final int LISTED = 3;
  private static final int FAULTS = 6;
  private static final double WORTH_A_LINE = 1e-3;

  private ExplanationText() {}

  /** Nothing where a healthy cable explains all. */
  static List<String> lines(List<Explanation> explanations) {
    List<String> out = new ArrayList<>();
    if (explanations.isEmpty()
        || (explanations.get(0).faults().isEmpty() && explanations.get(0).probability() > 0.99)) {
      return out;
    }
    out.add("");
    out.add("WHAT WOULD EXPLAIN IT   by probability, among the faults known here");
    for (Explanation e : explanations.subList(0, Math.min(LISTED, explanations.size()))) {
      if (e.probability() >= WORTH_A_LINE || e == explanations.get(0)) {
        String faults = e.faults().isEmpty() ? "no fault, chance alone" : faults(e.faults());
        String rest = e.explained() ? "" : "; the rest of the readings fits nothing";
        out.addAll(Paragraph.hanging("  " + percent(e.probability()) + "  ", faults + rest));
      }
    }
    return out;
  }

  private static String faults(List<Fault> faults) {
    String first =
        faults.stream().limit(FAULTS).map(ExplanationText::words).collect(Collectors.joining("; "));
    return faults.size() > FAULTS ? first + "; and " + (faults.size() - FAULTS) + " more" : first;
  }

  private static String percent(double probability) {
    return probability > 0.999
        ? "over 99.9 %"
        : String.format(Locale.ROOT, "%9.1f %%", 100 * probability);
  }

  private static String words(Fault fault) {
    String ports = ports(fault.ports());
    Quantity ohms = fault.ohms();
    String size =
        ohms == null
            ? ""
            : " (" + (ohms.value() < 1000 ? ohms.toString() : ResultText.words(ohms.value())) + ")";
    return switch (fault.kind()) {
      case OPEN -> ports + " open";
      case JOINT -> ports + " with a bad joint" + size;
      case BRIDGE -> ports + " to " + ports(fault.others()) + size;
    };
  }

  private static String ports(List<Integer> ports) {
    return ports.stream().map(Ports::name).collect(Collectors.joining(" or "));
  }
}
