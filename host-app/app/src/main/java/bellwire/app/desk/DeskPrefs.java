package bellwire.app.desk;

import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.TreeMap;

/**
 * What one person likes, whatever the job: theme, size of type, sound, the window's place, jobs
 * opened last. A small properties file in the user's directory for configurations (XDG Base
 * Directory Specification 0.8). Where it can't be read or written nothing is lost but the liking.
 */
public final class DeskPrefs {
  private static final int RECENT = 6;

  private final Path file;
  private final Map<String, String> values = new TreeMap<>();

  private DeskPrefs(Path file) {
    this.file = file;
  }

  /** This user's. */
  public static DeskPrefs ofUser() {
    String xdg = System.getenv("XDG_CONFIG_HOME");
    Path base =
        xdg != null && Path.of(xdg).isAbsolute()
            ? Path.of(xdg)
            : Path.of(System.getProperty("user.home"), ".config");
    return read(base.resolve("bellwire").resolve("desk.properties"));
  }

  public static DeskPrefs read(Path file) {
    DeskPrefs prefs = new DeskPrefs(file);
    Properties read = new Properties();
    try (Reader in = new StringReader(Files.exists(file) ? Files.readString(file) : "")) {
      read.load(in);
      read.stringPropertyNames().forEach(key -> prefs.values.put(key, read.getProperty(key)));
    } catch (IOException | IllegalArgumentException e) {
      prefs.values.clear();
    }
    return prefs;
  }

  public synchronized String get(String key, String otherwise) {
    return values.getOrDefault(key, otherwise);
  }

  public synchronized int number(String key, int otherwise) {
    try {
      return Integer.parseInt(values.getOrDefault(key, ""));
    } catch (NumberFormatException e) {
      return otherwise;
    }
  }

  public synchronized void put(String key, Object value) {
    values.put(key, value.toString());
  }

  /** Jobs opened last, the newest first. */
  public synchronized List<Path> recent() {
    List<Path> recent = new ArrayList<>();
    for (int i = 0; i < RECENT; i++) {
      String name = values.get("recent." + i);
      if (name != null) {
        recent.add(Path.of(name));
      }
    }
    return recent;
  }

  public synchronized void opened(Path job) {
    List<Path> recent = recent();
    recent.remove(job.toAbsolutePath());
    recent.add(0, job.toAbsolutePath());
    for (int i = 0; i < Math.min(RECENT, recent.size()); i++) {
      values.put("recent." + i, recent.get(i).toString());
    }
  }

  /** Written whole or not at all; not for the event thread. */
  public void save() {
    String text;
    synchronized (this) {
      text = LeftAs.text(values);
    }
    try {
      Path directory = file.toAbsolutePath().getParent();
      if (directory != null) {
        Files.createDirectories(directory);
      }
      Path beside = file.resolveSibling(file.getFileName() + ".new");
      Files.writeString(beside, text);
      Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
    } catch (IOException e) {
      // Next time the desk looks as it does to a new user.
    }
  }
}
