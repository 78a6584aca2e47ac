package bellwire.hardware.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The sheets say what the netlist says: read back from their lines and texts alone. */
class SheetsTest {
  private static final Path FOLDER = Path.of("../../hardware-notes/sheets");
  private static final DrawnBoard BOARD = DrawnBoard.revisionA();

  /** And so a second drawing is the same as the first. */
  @Test
  void theRepositoryHasTheSheetsAsTheyAreDrawnNow() throws IOException {
    if (Boolean.getBoolean("bellwire.write")) {
      Files.createDirectories(FOLDER);
      for (Path old : files()) {
        Files.delete(old);
      }
      for (Map.Entry<String, String> sheet : BOARD.svg().entrySet()) {
        Files.writeString(FOLDER.resolve(sheet.getKey()), sheet.getValue());
      }
    }
    Map<String, String> there = new TreeMap<>();
    for (Path file : files()) {
      there.put(file.getFileName().toString(), Files.readString(file));
    }
    assertThat(there.keySet())
        .as("-Dbellwire.write=true writes them")
        .isEqualTo(new TreeSet<>(BOARD.svg().keySet()));
    there.forEach((name, text) -> assertThat(text).as(name).isEqualTo(BOARD.svg().get(name)));
  }

  private static List<Path> files() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files.sorted().toList();
    }
  }

  @Test
  void everyPinOfEveryPartIsOnOneSheetOnce() {
    Set<String> missing = new TreeSet<>();
    for (Part part : Netlist.revisionA().parts()) {
      part.pins()
          .keySet()
          .forEach(pin -> missing.add(DrawnBoard.template(part.ref(), part) + " " + pin));
    }
    Map<String, String> sheets = new TreeMap<>();
    BOARD
        .sheets()
        .forEach(
            (name, sheet) -> {
              for (DrawnSheet.Stroke stroke : sheet.strokes("part")) {
                if (!stroke.pin().isEmpty()) {
                  String pin = DrawnBoard.ref(stroke.owner()) + " " + stroke.pin();
                  assertThat(missing.remove(pin)).as(name + " " + pin).isTrue();
                  String before = sheets.putIfAbsent(DrawnBoard.ref(stroke.owner()), name);
                  assertThat(before == null || before.equals(name))
                      .as(pin + " on two sheets")
                      .isTrue();
                }
              }
            });
    assertThat(missing).isEmpty();
  }

  @Test
  void everySheetOfTheNetlistIsDrawn() {
    Set<String> drawn = new TreeSet<>();
    BOARD.svg().keySet().forEach(name -> drawn.add(name.replaceAll("sheet-([0-9]+).*", "$1")));
    Set<String> expected = new TreeSet<>(Set.of("0"));
    Netlist.revisionA().sheets().keySet().forEach(number -> expected.add(number.toString()));
    assertThat(drawn).isEqualTo(expected);
  }

  @Test
  void theBlockDiagramLeadsToEverySheet() {
    Set<String> told = new TreeSet<>();
    for (DrawnSheet.Text text : BOARD.sheets().get("sheet-0.svg").texts()) {
      if (text.words().matches("sheets? [0-9., ]+")) {
        told.addAll(List.of(text.words().replaceAll("sheets? ", "").split(", ", -1)));
      }
    }
    Set<String> drawn = new TreeSet<>();
    BOARD.sheets().keySet().forEach(name -> drawn.add(name.replaceAll("sheet-(.*).svg", "$1")));
    drawn.remove("0");
    assertThat(told).isEqualTo(drawn);
  }

  @Test
  void linesJoinWhatTheNetlistJoins() {
    BOARD.sheets().forEach((name, sheet) -> assertThat(wrong(name, sheet)).as(name).isEmpty());
  }

  /** Else the test above could not fail. */
  @Test
  void aLineMissingOrTooManyIsFound() throws Exception {
    String svg = BOARD.svg().get("sheet-2.svg");
    int wires = svg.indexOf("<g class=\"wires\"");
    int first = svg.indexOf("<line", wires);
    String without = svg.substring(0, first) + svg.substring(svg.indexOf("\n", first) + 1);
    assertThat(wrong("sheet-2.svg", new DrawnSheet(without))).isNotEmpty();
    List<DrawnSheet.Stroke> pins =
        BOARD.sheets().get("sheet-2.svg").strokes("part").stream()
            .filter(s -> !s.pin().isEmpty())
            .toList();
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
    Map<String, String> nets = BOARD.nets();
    for (DrawnNets.Piece piece : drawn.pieces()) {
      Set<String> joined = new TreeSet<>(piece.names());
      piece
          .pins()
          .forEach(
              pin -> joined.add(nets.getOrDefault(DrawnBoard.unitless(pin), "no net: " + pin)));
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
          boolean further = BOARD.sheetsOf(net).size() > 1;
          if ((count > 1 || further) && !named.get(net).equals(count)) {
            wrong.add("pieces without their name: " + net + " on " + name);
          }
        });
    return wrong;
  }

  @Test
  void namesTellTheSheetsTheirNetGoesOnTo() {
    BOARD
        .sheets()
        .forEach(
            (name, sheet) -> {
              for (DrawnSheet.Text text : sheet.texts()) {
                if (text.kind().equals("net")
                    && sheet.beside(text).isEmpty()
                    && text.words().contains(" /")) {
                  String[] words = text.words().split(" /", -1);
                  Set<String> told = new TreeSet<>(List.of(words).subList(1, words.length));
                  told.add(name.replaceAll("sheet-(.*).svg", "$1"));
                  assertThat(told)
                      .as(name + " " + text.words())
                      .isEqualTo(BOARD.sheetsOf(words[0]));
                }
              }
            });
  }

  @Test
  void everyValueIsTheNetlists() {
    Map<String, String> shown = new TreeMap<>();
    BOARD
        .sheets()
        .values()
        .forEach(
            sheet ->
                sheet.texts().stream()
                    .filter(text -> text.kind().equals("part") && !text.owner().isEmpty())
                    .forEach(
                        text ->
                            shown.merge(
                                DrawnBoard.ref(text.owner()),
                                text.words(),
                                (a, b) -> a + "\n" + b)));
    BoardDescription board = BoardDescription.revisionA();
    int values = 0;
    for (Part part : Netlist.revisionA().parts()) {
      String texts = shown.getOrDefault(DrawnBoard.template(part.ref(), part), "");
      assertThat(texts).contains(DrawnBoard.template(part.ref(), part));
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
}
