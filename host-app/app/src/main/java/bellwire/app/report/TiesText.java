package bellwire.app.report;

import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.TieRound;
import bellwire.analysis.survey.TieRun;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.stream.Collectors;

/** The rounds of ties of a survey, for a terminal. */
final class TiesText {
  private static final int LISTED = 4;

  private TiesText() {}

  static List<String> lines(TieRun run) {
    List<String> out = new ArrayList<>();
    out.add("TIES   far numbers as taped; " + run.plan().ties() + " ties planned");
    for (int r = 0; r < run.rounds().size(); r++) {
      TieRound round = run.rounds().get(r);
      String joined =
          round.joined().stream()
              .filter(group -> !run.shorted().contains(group))
              .map(TiesText::joined)
              .collect(Collectors.joining(", "));
      out.addAll(
          Paragraph.hanging(
              "  round " + (r + 1) + ": ", joined.isEmpty() ? "nothing was joined" : joined));
    }
    for (int r = run.rounds().size(); r < run.plan().rounds().size(); r++) {
      out.add("  round " + (r + 1) + ": was not made");
    }
    if (!run.loops().isEmpty()) {
      out.addAll(
          Paragraph.hanging(
              "  ", "a tie gives the sum of its two conductors; of each alone nothing is known:"));
      for (TieRound.Loop loop : run.loops()) {
        out.add("    " + Ports.name(loop.a()) + " + " + Ports.name(loop.b()) + "  " + loop.ohms());
      }
    }
    return out;
  }

  private static String joined(List<Integer> group) {
    return group.stream().map(Ports::name).collect(Collectors.joining("-"));
  }

  /** What a drawing has at its far end: "3", "2 or 4", "one of 5". */
  static String far(TieRun run, int port) {
    SortedSet<Integer> numbers = run.reading().possible().get(port);
    if (numbers == null || numbers.isEmpty() || !run.reading().explained()) {
      return "?";
    }
    if (numbers.size() > LISTED) {
      return "one of " + numbers.size();
    }
    return (numbers.size() == 1 ? "number " : "")
        + numbers.stream().map(String::valueOf).collect(Collectors.joining(" or "));
  }
}
