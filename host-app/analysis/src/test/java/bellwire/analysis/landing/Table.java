package bellwire.analysis.landing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** Every mistake of the table, by mechanism, and the document made of it. */
final class Table {
  private static final String HEAD =
      """
      # Mistakes at the terminals, and what they do

      Computed by the landing check on sample installations, by circuit mechanism: nothing here was measured on equipment.
      The samples' figures (27 V open, 24 V at rated load, 40 VA, 25 m of 18 AWG, coils, fuses) are common practice, no
      source. A blade fuse's opening times (ISO 8820-3) are from memory, a breaker's common practice, a fast fuse's those of
      UL 248-14. *In* names the states of the control; *what it does* is the finding, worst first, with its figures. Remedies
      are the program's: `bellwire landing check`.

      Low voltage only. Switch the equipment off at its disconnect and prove the cable dead before touching a terminal.
      Where a fuse has opened: find the cause first, then fit the same type and rating.

      Written by `LandingMistakesTest` from the rows it checks; it says how to write it anew.
      """;

  private Table() {}

  static List<Made> all() {
    List<Made> all = new ArrayList<>();
    all.addAll(ShortRows.all());
    all.addAll(SupplyRows.all());
    all.addAll(PathRows.all());
    all.addAll(LoadRows.landed());
    all.addAll(LoadRows.touching());
    all.addAll(LoadRows.set());
    all.addAll(LoadRows.held());
    all.sort(Comparator.comparing(Made::mechanism));
    return all;
  }

  static String document(List<Made> all) {
    StringBuilder out = new StringBuilder(HEAD);
    out.append(String.format(Locale.ROOT, "%d mistakes.\n", all.size()));
    Mechanism section = null;
    for (int i = 0; i < all.size(); i++) {
      Made made = all.get(i);
      if (made.mechanism() != section) {
        section = made.mechanism();
        out.append("\n## ").append(section.title).append("\n\n");
        out.append("| | installation | mistake | in | what it does |\n|---|---|---|---|---|\n");
      }
      String lead = String.format("| %d | %s | %s |", i + 1, made.where(), made.mistake());
      for (Found found : made.found()) {
        if (!found.notice()) {
          out.append(lead).append(consequence(found));
          lead = "| | | |";
        }
      }
    }
    return out.toString();
  }

  private static String consequence(Found found) {
    String states = found.states().isEmpty() ? "every state" : String.join("; ", found.states());
    return String.format(" %s | **%s**: %s |\n", states, found.kind().title(), found.words());
  }
}
