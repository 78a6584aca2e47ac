package bellwire.fuzz;

import bellwire.yaml.FileException;
import java.nio.charset.StandardCharsets;

/** What must hold of a file's refusal. */
final class Refusals {
  private Refusals() {}

  /** It names a line that is there, and ends in what to do. */
  static void check(FileException refused, byte[] input) {
    String words = String.valueOf(refused.getMessage());
    Sentences.check(words);
    long lines = new String(input, StandardCharsets.UTF_8).lines().count() + 2;
    Finding.unless(
        refused.line() >= 0 && refused.line() <= lines,
        "a line that is not there: line=%s of %s",
        refused.line(),
        lines);
    String place = refused.line() > 0 ? ":" + refused.line() + ": " : ": ";
    Finding.unless(words.contains(place), "without its place: %s", words);
    int remedy = words.lastIndexOf("; ");
    Finding.unless(remedy > 0 && words.length() - remedy > 6, "without what to do: %s", words);
  }

  /** A sentence that begins with the name of what is to blame. */
  static void check(Exception refused, String name) {
    String words = String.valueOf(refused.getMessage());
    Sentences.check(words);
    Finding.unless(words.startsWith(name), "without its file: %s", words);
  }
}
