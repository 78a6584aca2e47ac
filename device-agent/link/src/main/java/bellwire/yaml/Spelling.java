package bellwire.yaml;

import java.util.Collection;

/** Suggests the key that was meant. */
public final class Spelling {
  private static final int CLOSE = 3;

  private Spelling() {}

  /** The nearest known key where it is near, else all of them. */
  public static String remedy(String key, Collection<String> known) {
    String nearest = "";
    int least = Integer.MAX_VALUE;
    for (String candidate : known) {
      int distance = distance(key, candidate);
      if (distance < least) {
        least = distance;
        nearest = candidate;
      }
    }
    if (known.isEmpty()) {
      return "there is none yet; describe one, or leave this out";
    }
    return least <= CLOSE ? "did you mean '" + nearest + "'?" : "use " + String.join(", ", known);
  }

  /** Whether one is likely a slip of the other: no more than a third of its letters differ. */
  static boolean close(String a, String b) {
    return 3 * distance(a, b) <= b.length() + 2;
  }

  /** Edits from one word to another (Levenshtein). */
  private static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j < row.length; j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j < row.length; j++) {
        int change = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(change, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[b.length()];
  }
}
