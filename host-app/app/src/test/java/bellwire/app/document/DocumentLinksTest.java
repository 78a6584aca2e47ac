package bellwire.app.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Each link of a page in the sources leads to a file, and its anchor to a heading there. */
class DocumentLinksTest {
  private static final Path SOURCES = Path.of("../..").toAbsolutePath().normalize();
  private static final Pattern CODE = Pattern.compile("```.*?```", Pattern.DOTALL);
  private static final Pattern LINK = Pattern.compile("\\]\\(([^)\\s]+)\\)");
  private static final Pattern HEADING = Pattern.compile("^#+ (.*)$", Pattern.MULTILINE);

  @Test
  void everyLinkLeadsSomewhere() throws IOException {
    List<String> astray = new ArrayList<>();
    int links = 0;
    for (Path page : pages()) {
      Matcher link = LINK.matcher(text(page));
      while (link.find()) {
        if (!link.group(1).matches("[a-z]+:.*")) {
          links++;
          check(page, link.group(1), astray);
        }
      }
    }
    assertThat(astray).isEmpty();
    assertThat(links).isGreaterThan(200);
  }

  private static List<Path> pages() throws IOException {
    List<Path> pages = new ArrayList<>();
    for (String start : new String[] {"README.md", "DEVELOPERS.md", "docs", "hardware-notes"}) {
      try (Stream<Path> below = Files.walk(SOURCES.resolve(start))) {
        below.filter(path -> path.toString().endsWith(".md")).forEach(pages::add);
      }
    }
    return pages;
  }

  private static String text(Path page) throws IOException {
    return CODE.matcher(Files.readString(page)).replaceAll("");
  }

  private static void check(Path page, String link, List<String> astray) throws IOException {
    int hash = link.indexOf('#');
    String file = hash < 0 ? link : link.substring(0, hash);
    Path to = file.isEmpty() ? page : page.resolveSibling(file).normalize();
    boolean there = Files.exists(to);
    if (there && hash >= 0 && to.toString().endsWith(".md")) {
      there = anchors(to).contains(link.substring(hash + 1));
    }
    if (!there) {
      astray.add(SOURCES.relativize(page) + ": " + link);
    }
  }

  /** As the usual viewers make them of headings: small letters, hyphens for spaces. */
  private static List<String> anchors(Path page) throws IOException {
    List<String> anchors = new ArrayList<>();
    Matcher heading = HEADING.matcher(text(page));
    while (heading.find()) {
      String words = heading.group(1).strip().toLowerCase(Locale.ROOT);
      anchors.add(words.replaceAll("[^\\p{L}\\p{N}_ -]", "").replace(' ', '-'));
    }
    return anchors;
  }
}
