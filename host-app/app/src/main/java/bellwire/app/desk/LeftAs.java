package bellwire.app.desk;

import bellwire.app.visit.Visit;
import java.io.IOException;
import java.io.StringReader;
import java.util.Map;
import java.util.Properties;
import java.util.TreeMap;
import javax.swing.Timer;

/**
 * How this job's desk was left: read once before the pages are made, written a little after each
 * change. Used on the event thread.
 */
final class LeftAs {
  /** What the job keeps it under, as lines of 'key=value'. */
  static final String KEY = "desk";

  private static final int SOON_MILLIS = 500;

  /** More than a path or a line of a form has; what is longer is not worth remembering. */
  private static final int MOST_CHARACTERS = 1000;

  /** More than all pages have. */
  private static final int MOST_KEYS = 200;

  private final Visit visit;
  private final Map<String, String> values = new TreeMap<>();
  private final Timer soon = new Timer(SOON_MILLIS, e -> write());

  /**
   * @param text as it was written
   */
  LeftAs(Visit visit, String text) {
    this.visit = visit;
    Properties read = new Properties();
    try {
      read.load(new StringReader(text));
    } catch (IOException | IllegalArgumentException e) {
      // Nothing that anybody typed: begin anew.
      read.clear();
    }
    read.stringPropertyNames().forEach(key -> values.put(key, read.getProperty(key)));
    soon.setRepeats(false);
  }

  String get(String key) {
    return values.getOrDefault(key, "");
  }

  /** Remembers a value; of one that is too long, that there is none. */
  void put(String key, String value) {
    String kept = value.length() <= MOST_CHARACTERS ? value : "";
    if (values.size() >= MOST_KEYS && !values.containsKey(key)) {
      throw new IllegalArgumentException("too many things to remember, key=" + key);
    }
    if (!kept.equals(values.put(key, kept))) {
      soon.restart();
    }
  }

  /** Writes what has not been written yet. */
  void flush() {
    if (soon.isRunning()) {
      soon.stop();
      write();
    }
  }

  private void write() {
    String text = text(values);
    var unused =
        visit.ask(
            records -> {
              records.left(KEY, text);
              return text;
            });
  }

  static String text(Map<String, String> values) {
    StringBuilder text = new StringBuilder();
    values.forEach(
        (key, value) -> text.append(escaped(key)).append('=').append(escaped(value)).append('\n'));
    return text.toString();
  }

  private static String escaped(String words) {
    StringBuilder escaped = new StringBuilder();
    for (int i = 0; i < words.length(); i++) {
      char c = words.charAt(i);
      switch (c) {
        case '\n' -> escaped.append("\\n");
        case '\r' -> escaped.append("\\r");
        case '\t' -> escaped.append("\\t");
        case '\\', '=', ':', '#', '!', ' ' -> escaped.append('\\').append(c);
        default -> escaped.append(c);
      }
    }
    return escaped.toString();
  }
}
