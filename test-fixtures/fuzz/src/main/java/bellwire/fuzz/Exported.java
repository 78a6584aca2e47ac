package bellwire.fuzz;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;

/**
 * What an export has written.
 *
 * @param elements of its pages, with their attributes' names
 * @param files their names
 */
record Exported(Set<String> elements, Set<String> files, List<String> cells) {
  private static final Pattern TAG =
      Pattern.compile("<([a-zA-Z/!?][^\\s>/]*)((?:[^>\"]|\"[^\"]*\")*)>");
  private static final Pattern ATTRIBUTE = Pattern.compile("([a-zA-Z][\\w:-]*)\\s*=");
  private static final Pattern NUMBER =
      Pattern.compile("[-+]?(\\d+\\.?\\d*|\\.\\d+)([eE][-+]?\\d+)?");

  static Exported of(Path directory) throws IOException {
    Set<String> elements = new TreeSet<>();
    Set<String> files = new TreeSet<>();
    List<String> cells = new ArrayList<>();
    try (Stream<Path> all = Files.walk(directory)) {
      for (Path file : all.filter(Files::isRegularFile).toList()) {
        String name = directory.relativize(file).toString();
        files.add(name);
        if (name.endsWith(".html")) {
          elements(Files.readString(file), elements);
        } else if (name.endsWith(".pdf")) {
          passive(file);
        } else if (name.endsWith(".csv")) {
          cells(new String(Files.readAllBytes(file), StandardCharsets.UTF_8), cells);
        }
      }
    }
    return new Exported(elements, files, cells);
  }

  /** Pages, and nothing that acts: ISO 32000-1, 12.5 and 12.6, annotations and actions. */
  private static void passive(Path file) throws IOException {
    try (PDDocument pdf = Loader.loadPDF(file.toFile())) {
      Finding.unless(
          pdf.getDocumentCatalog().getOpenAction() == null
              && pdf.getDocumentCatalog().getNames() == null
              && pdf.getDocumentCatalog().getAcroForm() == null,
          "a document that acts: %s",
          file);
      for (PDPage page : pdf.getPages()) {
        Finding.unless(page.getAnnotations().isEmpty(), "a page that acts: %s", file);
      }
    }
  }

  /** Holds it against what a job without malice comes to. */
  void check(Exported plain) {
    for (String element : elements) {
      Finding.unless(plain.elements.contains(element), "an element of its own: %s", element);
    }
    for (String file : files) {
      Finding.unless(file.matches("[a-z0-9A-Z.-]+"), "a file by another name: %s", file);
    }
    for (String cell : cells) {
      Finding.unless(
          cell.isEmpty()
              || "=+-@\t\r\uFF1D\uFF0B\uFF0D\uFF20".indexOf(cell.charAt(0)) < 0
              || NUMBER.matcher(cell).matches(),
          "a formula in a cell: %s",
          cell);
    }
  }

  private static void elements(String html, Set<String> into) {
    Matcher tag = TAG.matcher(html);
    while (tag.find()) {
      String values = tag.group(2).replaceAll("\"[^\"]*\"", "\"\"");
      Matcher attribute = ATTRIBUTE.matcher(values);
      into.add(tag.group(1));
      while (attribute.find()) {
        into.add(tag.group(1) + " " + attribute.group(1));
      }
    }
  }

  /** RFC 4180. */
  private static void cells(String csv, List<String> into) {
    StringBuilder cell = new StringBuilder();
    boolean quoted = false;
    for (int i = 0; i < csv.length(); i++) {
      char c = csv.charAt(i);
      if (c == '"') {
        if (quoted && i + 1 < csv.length() && csv.charAt(i + 1) == '"') {
          cell.append(c);
          i++;
        } else {
          quoted = !quoted;
        }
      } else if (!quoted && (c == ',' || c == '\n' || c == '\r')) {
        into.add(cell.toString());
        cell.setLength(0);
      } else {
        cell.append(c);
      }
    }
  }
}
