package bellwire.app.document;

import bellwire.app.survey.BoardSaid;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** The boards that measured, as they said of themselves. */
final class Instruments {
  /**
   * A board, or one that says the same.
   *
   * @param measured such as '2 surveys'
   */
  record Used(BoardSaid said, String measured) {}

  private final ReportContents contents;

  Instruments(ReportContents contents) {
    this.contents = contents;
  }

  List<BoardSaid> surveys() {
    return contents.cables().stream()
        .flatMap(c -> c.surveys().stream())
        .flatMap(
            s ->
                s.sheet().stream()
                    .map(x -> new BoardSaid(x.revision(), x.agentVersion(), s.selfCheck())))
        .toList();
  }

  /** In the order of the visit. */
  List<Used> all() {
    Map<BoardSaid, List<String>> used = new LinkedHashMap<>();
    count(used, surveys().stream(), "survey");
    count(
        used,
        contents.rehearsals().stream().flatMap(r -> r.outcome().stream()).map(o -> o.board()),
        "rehearsal");
    count(
        used,
        contents.vigils().stream()
            .flatMap(v -> v.stored().stream())
            .map(v -> BoardSaid.of(v.watched().board())),
        "vigil");
    return used.entrySet().stream()
        .map(e -> new Used(e.getKey(), String.join(", ", e.getValue())))
        .toList();
  }

  private static void count(
      Map<BoardSaid, List<String>> used, Stream<BoardSaid> said, String what) {
    Map<BoardSaid, Integer> times = new LinkedHashMap<>();
    said.forEach(s -> times.merge(s, 1, Integer::sum));
    times.forEach(
        (s, n) ->
            used.computeIfAbsent(s, x -> new ArrayList<>())
                .add(n + " " + what + (n == 1 ? "" : "s")));
  }
}
