package bellwire.hardware.notes;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A page of {@code hardware-notes/}. A figure in it is a number with its unit and, invisible on the
 * page, its name: {@code 2.6 mA<!--=short-amps-->}. What stands before the name is what the board's
 * data give, or the page is wrong.
 */
final class NotesPage {
  private static final String NUMBER = "−?[0-9]+(?:\\.[0-9]+)?";
  private static final String UNIT =
      "(?:mV|µV|V|mA|µA|nA|A|mW|W|mJ|mohm|ohm|kohm|Mohm|pF|nF|µF|mH|µH|ms|µs|s|mm|Hz|kHz|MHz|K|°C|%|ppm/K)";
  private static final Pattern FIGURE =
      Pattern.compile(
          "(" + NUMBER + "(?: to " + NUMBER + ")?(?: " + UNIT + ")?)<!--=([a-z0-9-]+)-->");
  private static final Pattern NAME = Pattern.compile("<!--=([a-z0-9-]+)-->");
  private static final Pattern QUANTITY =
      Pattern.compile("(?<![\\w.])" + NUMBER + " " + UNIT + "(?![\\w/])");

  /** From memory, common practice, chosen here, or read in the source that the page names. */
  private static final Pattern MARK = Pattern.compile("\\((?:M|CP|set|V)\\)");

  private static final Pattern LINK = Pattern.compile("\\]\\(([^)#:]+)(?:#[^)]*)?\\)");

  private final String text;

  NotesPage(String text) {
    this.text = text;
  }

  /** The page with every figure as the data give it. */
  String with(Map<String, String> figures) {
    StringBuilder out = new StringBuilder();
    Matcher figure = FIGURE.matcher(text);
    while (figure.find()) {
      String value = figures.getOrDefault(figure.group(2), figure.group(1));
      figure.appendReplacement(
          out, Matcher.quoteReplacement(value + "<!--=" + figure.group(2) + "-->"));
    }
    return figure.appendTail(out).toString();
  }

  /** The figures that it names; a name after something that is no number counts as well. */
  Set<String> names() {
    Set<String> names = new LinkedHashSet<>();
    Matcher name = NAME.matcher(text);
    while (name.find()) {
      names.add(name.group(1));
    }
    return names;
  }

  /** How many names stand behind no number. */
  long stray() {
    return NAME.matcher(text).results().count() - FIGURE.matcher(text).results().count();
  }

  /**
   * Quantities that are neither a figure nor in a paragraph, item or row that says where they are
   * from; the cautions, which are the same on all pages, apart.
   */
  List<String> unsupported() {
    List<String> found = new ArrayList<>();
    for (String block : text.split("\n\n|\n(?=[|]|- |[0-9]+\\. )")) {
      if (block.startsWith(">") || MARK.matcher(block).find()) {
        continue;
      }
      Matcher quantity = QUANTITY.matcher(FIGURE.matcher(block).replaceAll("figure"));
      while (quantity.find()) {
        found.add(quantity.group() + " in: " + block.strip().replace('\n', ' '));
      }
    }
    return found;
  }

  /** Files of the repository that it points to, relative to it. */
  List<String> links() {
    return LINK.matcher(text).results().map(link -> link.group(1)).toList();
  }
}
