package bellwire.hardware.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * The sheets as they are drawn, read back from their lines. Sizes: A4 landscape, ISO 216; the least
 * height of letters and the least width of lines are the project's own.
 */
class SheetsTest {
  private static final Path FOLDER = Path.of("../../hardware-notes/sheets");
  private static final double LEAST_CAPITALS_MM = 2.0;
  private static final double LEAST_LINE_MM = 0.2;
  private static final double TOUCH_MM = 0.05;
  private static final List<String> CAUTIONS =
      List.of(
          "Low voltage only: class 2 circuits, up to 30 V.",
          "No part of this board is made for mains.",
          "it is no safety barrier against a mains fault.",
          "Equipment off at its disconnect",
          "proved dead, live-dead-live",
          "find it, then fit the same type and rating only.",
          "Follow the local codes; licensed work is for those who hold a licence.",
          "Nobody has built this board.");

  private static final Map<String, String> SVG = new LinkedHashMap<>();
  private static final Map<String, DrawnSheet> DRAWN = new LinkedHashMap<>();
  private static final Map<String, Set<String>> SHEETS_OF = new TreeMap<>();

  @BeforeAll
  static void draw() throws Exception {
    SVG.putAll(new Sheets(Netlist.revisionA(), BoardDescription.revisionA()).svg());
    for (Map.Entry<String, String> sheet : SVG.entrySet()) {
      DRAWN.put(sheet.getKey(), new DrawnSheet(sheet.getValue()));
    }
  }

  @Test
  void theRepositoryHasTheSheetsAsTheyAreDrawnNow() throws IOException {
    if (Boolean.getBoolean("bellwire.write")) {
      Files.createDirectories(FOLDER);
      for (Path old : files()) {
        Files.delete(old);
      }
      for (Map.Entry<String, String> sheet : SVG.entrySet()) {
        Files.writeString(FOLDER.resolve(sheet.getKey()), sheet.getValue());
      }
    }
    Map<String, String> there = new TreeMap<>();
    for (Path file : files()) {
      there.put(file.getFileName().toString(), Files.readString(file));
    }
    assertThat(there.keySet())
        .as("-Dbellwire.write=true writes them")
        .isEqualTo(new TreeSet<>(SVG.keySet()));
    there.forEach((name, text) -> assertThat(text).as(name).isEqualTo(SVG.get(name)));
  }

  private static List<Path> files() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files.sorted().toList();
    }
  }

  @Test
  void aSecondDrawingIsTheSame() {
    assertThat(new Sheets(Netlist.revisionA(), BoardDescription.revisionA()).svg()).isEqualTo(SVG);
  }

  @Test
  void everyPinOfEveryPartIsOnOneSheetOnce() {
    Set<String> missing = new TreeSet<>();
    for (Part part : Netlist.revisionA().parts()) {
      part.pins().keySet().forEach(pin -> missing.add(template(part.ref(), part) + " " + pin));
    }
    Map<String, String> sheets = new TreeMap<>();
    DRAWN.forEach(
        (name, sheet) -> {
          for (DrawnSheet.Stroke stroke : sheet.strokes("part")) {
            if (!stroke.pin().isEmpty()) {
              String pin = ref(stroke.owner()) + " " + stroke.pin();
              assertThat(missing.remove(pin)).as(name + " " + pin).isTrue();
              String before = sheets.putIfAbsent(ref(stroke.owner()), name);
              assertThat(before == null || before.equals(name)).as(pin + " on two sheets").isTrue();
            }
          }
        });
    assertThat(missing).isEmpty();
  }

  @Test
  void everySheetOfTheNetlistIsDrawn() {
    Set<String> drawn = new TreeSet<>();
    SVG.keySet().forEach(name -> drawn.add(name.replaceAll("sheet-([0-9]+).*", "$1")));
    Set<String> expected = new TreeSet<>(Set.of("0"));
    Netlist.revisionA().sheets().keySet().forEach(number -> expected.add(number.toString()));
    assertThat(drawn).isEqualTo(expected);
  }

  @Test
  void linesJoinWhatTheNetlistJoins() {
    DRAWN.forEach((name, sheet) -> assertThat(wrong(name, sheet)).as(name).isEmpty());
  }

  /** Else the test above could not fail. */
  @Test
  void aLineMissingOrTooManyIsFound() throws Exception {
    String svg = SVG.get("sheet-2.svg");
    int wires = svg.indexOf("<g class=\"wires\"");
    int first = svg.indexOf("<line", wires);
    String without = svg.substring(0, first) + svg.substring(svg.indexOf("\n", first) + 1);
    assertThat(wrong("sheet-2.svg", new DrawnSheet(without))).isNotEmpty();
    List<DrawnSheet.Stroke> pins =
        DRAWN.get("sheet-2.svg").strokes("part").stream().filter(s -> !s.pin().isEmpty()).toList();
    DrawnSheet.Stroke a = pins.get(0);
    DrawnSheet.Stroke b = pins.get(pins.size() - 1);
    String line =
        "<line x1=\"%s\" y1=\"%s\" x2=\"%s\" y2=\"%s\"/>\n"
            .formatted(a.x2(), a.y2(), b.x2(), b.y2());
    String with = svg.substring(0, first) + line + svg.substring(first);
    assertThat(wrong("sheet-2.svg", new DrawnSheet(with))).isNotEmpty();
  }

  /** Where a sheet says something else than the netlist. */
  private static List<String> wrong(String name, DrawnSheet sheet) {
    DrawnNets drawn = new DrawnNets(sheet);
    List<String> wrong = new ArrayList<>(drawn.problems());
    Map<String, Integer> pieces = new TreeMap<>();
    Map<String, Integer> named = new TreeMap<>();
    Map<String, String> nets = nets();
    for (DrawnNets.Piece piece : drawn.pieces()) {
      Set<String> joined = new TreeSet<>(piece.names());
      piece.pins().forEach(pin -> joined.add(nets.getOrDefault(unitless(pin), "no net: " + pin)));
      if (joined.size() != 1) {
        wrong.add("one piece: " + joined + " " + piece.pins());
      }
      if (piece.pins().isEmpty()) {
        wrong.add("joins nothing: " + piece);
      }
      String net = joined.iterator().next();
      pieces.merge(net, 1, Integer::sum);
      named.merge(net, piece.names().isEmpty() ? 0 : 1, Integer::sum);
      if (net.equals(Part.OPEN) && piece.pins().size() != 1) {
        wrong.add("joined, but open: " + piece.pins());
      }
    }
    pieces.remove(Part.OPEN);
    pieces.forEach(
        (net, count) -> {
          boolean further = sheetsOf(net).size() > 1;
          if ((count > 1 || further) && !named.get(net).equals(count)) {
            wrong.add("pieces without their name: " + net + " on " + name);
          }
        });
    return wrong;
  }

  @Test
  void namesTellTheSheetsTheirNetGoesOnTo() {
    DRAWN.forEach(
        (name, sheet) -> {
          for (DrawnSheet.Text text : sheet.texts()) {
            if (text.kind().equals("net")
                && sheet.beside(text).isEmpty()
                && text.words().contains(" /")) {
              String[] words = text.words().split(" /", -1);
              Set<String> told = new TreeSet<>(List.of(words).subList(1, words.length));
              told.add(name.replaceAll("sheet-(.*).svg", "$1"));
              assertThat(told).as(name + " " + text.words()).isEqualTo(sheetsOf(words[0]));
            }
          }
        });
  }

  @Test
  void nothingLiesOverAnything() {
    DRAWN.forEach((name, sheet) -> assertThat(covered(sheet)).as(name).isEmpty());
  }

  /** Texts that lie on a text or on a line. */
  private static List<String> covered(DrawnSheet sheet) {
    List<String> covered = new ArrayList<>();
    List<DrawnSheet.Text> texts = sheet.texts();
    for (int i = 0; i < texts.size(); i++) {
      Rectangle2D box = shrunk(texts.get(i).box());
      for (int j = 0; j < i; j++) {
        if (box.intersects(shrunk(texts.get(j).box()))) {
          covered.add(texts.get(i) + " on " + texts.get(j));
        }
      }
      for (DrawnSheet.Stroke stroke : sheet.strokes()) {
        if (box.intersectsLine(stroke.x1(), stroke.y1(), stroke.x2(), stroke.y2())) {
          covered.add(texts.get(i) + " on " + stroke);
        }
      }
    }
    return covered;
  }

  @Test
  void noWireAndNoOtherSymbolIsInASymbol() {
    DRAWN.forEach((name, sheet) -> assertThat(entered(sheet)).as(name).isEmpty());
  }

  private static List<String> entered(DrawnSheet sheet) {
    List<String> entered = new ArrayList<>();
    Map<String, Rectangle2D> bodies = bodies(sheet);
    bodies.forEach(
        (part, body) -> {
          Rectangle2D inner = shrunk(body);
          bodies.forEach(
              (other, box) -> {
                if (!part.equals(other) && inner.intersects(box)) {
                  entered.add(part + " and " + other);
                }
              });
          for (DrawnSheet.Stroke stroke : sheet.strokes()) {
            if (!stroke.owner().equals(part)
                && !stroke.kind().equals("frame")
                && inner.intersectsLine(stroke.x1(), stroke.y1(), stroke.x2(), stroke.y2())) {
              entered.add(part + " and " + stroke);
            }
          }
        });
    return entered;
  }

  /** The box of each symbol, its connections left off. */
  private static Map<String, Rectangle2D> bodies(DrawnSheet sheet) {
    Map<String, Rectangle2D> bodies = new TreeMap<>();
    for (DrawnSheet.Stroke stroke : sheet.strokes("part")) {
      if (stroke.pin().isEmpty() && !stroke.owner().isEmpty()) {
        Rectangle2D box = new Rectangle2D.Double(stroke.x1(), stroke.y1(), 0, 0);
        box.add(stroke.x2(), stroke.y2());
        bodies.merge(stroke.owner(), box, Rectangle2D::createUnion);
      }
    }
    return bodies;
  }

  @Test
  void allIsInTheFrameAndLegible() {
    DRAWN.forEach(
        (name, sheet) -> {
          Rectangle2D frame = new Rectangle2D.Double(0, 0, 0, 0);
          for (DrawnSheet.Stroke stroke : sheet.strokes("frame")) {
            frame =
                frame.isEmpty() ? new Rectangle2D.Double(stroke.x1(), stroke.y1(), 1, 1) : frame;
            frame.add(stroke.x1(), stroke.y1());
            frame.add(stroke.x2(), stroke.y2());
          }
          assertThat(new Rectangle2D.Double(5, 5, 287, 200).contains(frame)).as(name).isTrue();
          for (DrawnSheet.Text text : sheet.texts()) {
            assertThat(frame.contains(text.box())).as(name + " " + text).isTrue();
            assertThat(text.capitals())
                .as(name + " " + text)
                .isGreaterThanOrEqualTo(LEAST_CAPITALS_MM);
          }
          for (DrawnSheet.Stroke stroke : sheet.strokes()) {
            assertThat(
                    frame.outcode(stroke.x1(), stroke.y1())
                        | frame.outcode(stroke.x2(), stroke.y2()))
                .as(name + " " + stroke)
                .isZero();
            assertThat(stroke.width())
                .as(name + " " + stroke)
                .isGreaterThanOrEqualTo(LEAST_LINE_MM);
          }
          assertThat(SVG.get(name))
              .contains("width=\"297mm\" height=\"210mm\" viewBox=\"0 0 297 210\"");
        });
  }

  @Test
  void everySheetHasTheCautionsAndItsTitle() {
    int number = 0;
    for (Map.Entry<String, DrawnSheet> sheet : DRAWN.entrySet()) {
      number++;
      StringBuilder all = new StringBuilder();
      sheet.getValue().texts().forEach(text -> all.append(text.words()).append(' '));
      assertThat(all.toString()).as(sheet.getKey()).contains(CAUTIONS);
      assertThat(all.toString())
          .contains("Bellwire sensing board, revision A")
          .contains(
              "Sheet %s, %d of %d"
                  .formatted(
                      sheet.getKey().replaceAll("sheet-(.*).svg", "$1"), number, DRAWN.size()));
    }
  }

  @Test
  void everyValueIsTheNetlists() {
    Map<String, String> shown = new TreeMap<>();
    DRAWN
        .values()
        .forEach(
            sheet ->
                sheet.texts().stream()
                    .filter(text -> text.kind().equals("part") && !text.owner().isEmpty())
                    .forEach(
                        text ->
                            shown.merge(ref(text.owner()), text.words(), (a, b) -> a + "\n" + b)));
    BoardDescription board = BoardDescription.revisionA();
    int values = 0;
    for (Part part : Netlist.revisionA().parts()) {
      String texts = shown.getOrDefault(template(part.ref(), part), "");
      assertThat(texts).contains(template(part.ref(), part));
      if (part.value() != null) {
        values++;
        double value = part.value().of(board::nominal);
        assertThat(texts.lines().anyMatch(line -> Math.abs(number(line) / value - 1) < 1e-4))
            .as(part.ref() + " " + value + "\n" + texts)
            .isTrue();
      }
    }
    assertThat(values).isPositive();
  }

  /** The value that a text begins with, prefixes after the SI brochure; NaN: none. */
  private static double number(String text) {
    java.util.regex.Matcher value =
        java.util.regex.Pattern.compile("([0-9.]+) ([pnµmkM]?)[ΩFH].*").matcher(text);
    if (!value.matches()) {
      return Double.NaN;
    }
    double factor =
        switch (value.group(2)) {
          case "p" -> 1e-12;
          case "n" -> 1e-9;
          case "µ" -> 1e-6;
          case "m" -> 1e-3;
          case "k" -> 1e3;
          case "M" -> 1e6;
          default -> 1;
        };
    return Double.parseDouble(value.group(1)) * factor;
  }

  /** The net of each part and pin, repeated blocks once. */
  private static Map<String, String> nets() {
    Map<String, String> nets = new TreeMap<>();
    for (Part part : Netlist.revisionA().parts()) {
      part.pins()
          .forEach(
              (pin, net) -> nets.put(template(part.ref(), part) + " " + pin, template(net, part)));
    }
    return nets;
  }

  /** The sheets that pins of a net are on, found by the parts that are drawn there. */
  private static Set<String> sheetsOf(String net) {
    if (SHEETS_OF.isEmpty()) {
      Map<String, String> at = pinSheets();
      for (Part part : Netlist.revisionA().parts()) {
        part.pins()
            .forEach(
                (pin, name) -> {
                  String sheet = at.getOrDefault(template(part.ref(), part) + " " + pin, "none");
                  for (String key : List.of(name, name.replaceAll("_([PX][0-9]+|M)$", "_{p}"))) {
                    SHEETS_OF.computeIfAbsent(key, k -> new TreeSet<>()).add(sheet);
                  }
                });
      }
    }
    return SHEETS_OF.getOrDefault(net, Set.of());
  }

  private static Map<String, String> pinSheets() {
    Map<String, String> sheets = new TreeMap<>();
    DRAWN.forEach(
        (name, sheet) -> {
          for (DrawnSheet.Stroke stroke : sheet.strokes("part")) {
            if (!stroke.pin().isEmpty()) {
              sheets.put(
                  ref(stroke.owner()) + " " + stroke.pin(),
                  name.replaceAll("sheet-(.*).svg", "$1"));
            }
          }
        });
    return sheets;
  }

  private static Rectangle2D shrunk(Rectangle2D box) {
    return new Rectangle2D.Double(
        box.getX() + TOUCH_MM,
        box.getY() + TOUCH_MM,
        box.getWidth() - 2 * TOUCH_MM,
        box.getHeight() - 2 * TOUCH_MM);
  }

  private static String template(String name, Part part) {
    String end = "_" + part.instance();
    return part.instance() != null && name.endsWith(end)
        ? name.substring(0, name.length() - end.length()) + "_{p}"
        : name;
  }

  private static String ref(String key) {
    return key.split("\\.", 2)[0];
  }

  private static String unitless(String pin) {
    String[] words = pin.split(" ", 2);
    return ref(words[0]) + " " + words[1];
  }
}
