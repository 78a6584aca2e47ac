package bellwire.analysis.rules;

import java.util.Collection;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Finds the word that was meant (edit distance: Levenshtein, 1966). */
final class Spelling {
  private Spelling() {}

  /** The known name within a third of its letters of the one written, or null. */
  static @Nullable String nearest(String written, Collection<String> known) {
    String best = null;
    int least = Integer.MAX_VALUE;
    for (String name : known) {
      int distance = distance(written.toLowerCase(Locale.ROOT), name.toLowerCase(Locale.ROOT));
      if (distance < least && distance <= Math.max(1, name.length() / 3)) {
        least = distance;
        best = name;
      }
    }
    return best;
  }

  private static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(change, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[b.length()];
  }
}
