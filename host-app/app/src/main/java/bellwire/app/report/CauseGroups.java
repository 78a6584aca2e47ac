package bellwire.app.report;

import bellwire.analysis.landing.Cause;
import bellwire.analysis.landing.Dialogue;
import bellwire.analysis.landing.Mistake;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * What may be the cause, as a person is told at the terminal and in the window: by what the causes
 * show, the likeliest first, and not more than can be read.
 *
 * @param groups causes that show the same; only the next steps tell which it is
 * @param lessLikely groups that are left out
 * @param unexplained how likely it is that nothing in the loop explains it; empty where that is not
 *     worth a word
 */
public record CauseGroups(List<Group> groups, int lessLikely, String unexplained) {
  private static final int GROUPS = 3;
  private static final int SHOWN = 3;
  private static final int ALIKE = 3;
  private static final double WORTH_A_WORD = 0.01;

  /**
   * Causes that show the same.
   *
   * @param share how likely one of them is, such as '42 %'
   * @param more how many are left out
   */
  public record Group(String share, List<Cause> shown, int more) {
    /** 'or one more that would show the same'; empty where none is left out. */
    public String moreWords() {
      return more == 0
          ? ""
          : "or " + (more == 1 ? "one more" : more + " more") + " that would show the same";
    }
  }

  public static CauseGroups of(Dialogue dialogue) {
    List<List<Cause>> all = dialogue.bySymptoms();
    List<Group> groups = new ArrayList<>();
    for (List<Cause> group : all.subList(0, Math.min(GROUPS, all.size()))) {
      int shown = Math.min(SHOWN, group.size());
      groups.add(
          new Group(
              Share.words(share(group)),
              List.copyOf(group.subList(0, shown)),
              group.size() - shown));
    }
    double unexplained = dialogue.unexplained();
    boolean told = unexplained >= WORTH_A_WORD || all.isEmpty();
    return new CauseGroups(
        List.copyOf(groups), all.size() - groups.size(), told ? Share.words(unexplained) : "");
  }

  public static double share(List<Cause> group) {
    return group.stream().mapToDouble(Cause::probability).sum();
  }

  /** What no measurement tells from it; empty for nothing. */
  public static String alike(Cause cause) {
    return cause.alike().stream()
        .limit(ALIKE)
        .map(one -> one.stream().map(Mistake::words).collect(Collectors.joining(" and ")))
        .collect(Collectors.joining("; or "));
  }
}
