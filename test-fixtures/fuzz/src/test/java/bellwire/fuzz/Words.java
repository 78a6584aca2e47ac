package bellwire.fuzz;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A dictionary for the fuzzer: the words of its seeds, and what is trouble in many formats. */
final class Words {
  private static final Pattern WORD = Pattern.compile("[A-Za-z][A-Za-z0-9_-]{2,20}");
  private static final List<String> TROUBLE =
      List.of(
          "1e308",
          "-1e308",
          "1e-320",
          "NaN",
          "Infinity",
          "-0",
          "9223372036854775807",
          "9223372036854775808",
          "4294967296",
          "2147483648",
          "65536",
          "999999999",
          "0x7f",
          "\\x00",
          "\\x1b[2J",
          "\\xe2\\x80\\xae",
          "\\xf0\\x9f\\x98\\x80",
          "\\xed\\xa0\\x80",
          "\\xef\\xbb\\xbf",
          "&a",
          "*a",
          "<<: *a",
          "---\\x0a",
          "!!",
          "|2\\x0a",
          "[[[[",
          "{{{{",
          "\\x0a",
          "\\x0d\\x0a",
          ": ",
          "- ",
          "<b>",
          "]]>",
          "&amp;",
          "=1+1",
          "../",
          "\\\"\\\"");

  private Words() {}

  /** Lines of the fuzzer's form. */
  static List<String> of(List<byte[]> seeds) {
    Set<String> words = new TreeSet<>();
    for (byte[] seed : seeds) {
      Matcher word = WORD.matcher(new String(seed, StandardCharsets.ISO_8859_1));
      while (word.find()) {
        words.add(word.group());
      }
    }
    List<String> lines = new ArrayList<>();
    TROUBLE.forEach(one -> lines.add('"' + one + '"'));
    words.forEach(one -> lines.add('"' + one + '"'));
    return lines;
  }
}
