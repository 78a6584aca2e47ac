package bellwire.analysis.landing;

import java.util.List;
import java.util.stream.Collectors;

/**
 * What explains the symptoms, as far as the answers so far tell.
 *
 * @param mistakes none (nothing is wrong in the loop), one or two
 * @param probability among all that was considered, with those alike
 * @param alike other combinations that neither symptoms nor any measurement known here tells from
 *     it
 */
public record Cause(List<Mistake> mistakes, double probability, List<List<Mistake>> alike) {
  public Cause {
    mistakes = List.copyOf(mistakes);
    alike = List.copyOf(alike);
  }

  public String words() {
    return mistakes.isEmpty()
        ? "nothing in the low-voltage loop"
        : mistakes.stream().map(Mistake::words).collect(Collectors.joining("; and "));
  }

  public String remedy() {
    return mistakes.isEmpty()
        ? "Look at the equipment itself: its own controls, its supply, its mechanics; then at the"
            + " control: another one in its place, or a rehearsal."
        : mistakes.stream().map(Mistake::remedy).distinct().collect(Collectors.joining(" "));
  }
}
