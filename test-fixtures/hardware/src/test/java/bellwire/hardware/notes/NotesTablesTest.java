package bellwire.hardware.notes;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.board.CodedPlug;
import bellwire.hardware.Netlist;
import bellwire.hardware.PartLine;
import bellwire.hardware.PartsList;
import bellwire.hardware.deck.BenchReadings;
import bellwire.hardware.deck.BenchReadings.Key;
import bellwire.hardware.deck.BenchReadings.Reading;
import bellwire.hardware.deck.DeckRuns;
import bellwire.hardware.deck.NotesTable;
import bellwire.hardware.notes.BringUpFigures.Tables;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The pages' tables and figures are what the board's data give; with -Dbellwire.write they become
 * so.
 */
class NotesTablesTest {
  private static final Path NOTES = Path.of("../../hardware-notes");
  private static final long SEED = 20261126;
  private static final int BOARDS = 40;
  private static final String ANEW = "if it has to change, write it anew: -Dbellwire.write=true";

  /**
   * Pages from before figures had names: their numbers are held by the tests of what they describe.
   */
  private static final Set<String> WITHOUT_NAMES =
      Set.of("README.md", "call-sense.md", "event-path.md");

  private static final Netlist NETLIST = Netlist.revisionA();
  private static final BoardDescription BOARD = BoardDescription.revisionA();
  private static TestPointTable readings = new TestPointTable(NETLIST, Map.of());
  private static Map<String, String> figures = Map.of();

  @BeforeAll
  static void runTheDeck(@TempDir Path directory) throws Exception {
    DeckRuns.requireNgspice();
    System.out.println("NotesTablesTest seed=" + SEED);
    Map<Key, Reading> read = new BenchReadings(NETLIST, BOARD, SEED).run(directory, BOARDS);
    readings = new TestPointTable(NETLIST, read);
    Figures all = new Figures(NETLIST, BOARD);
    PowerFigures.add(all, new PowerBudget(NETLIST, BOARD));
    CircuitFigures.add(all);
    Tables tables =
        new Tables(
            DeckRuns.table("heartbeat").read(),
            DeckRuns.table("wetting").read(),
            DeckRuns.table("foreign").read());
    BringUpFigures.add(all, readings, tables);
    figures = all.texts();
  }

  static Stream<String> tables() {
    return Stream.of("header", "induced", "parts", "plug", "power", "test-points", "words");
  }

  private static String computed(String table) {
    return switch (table) {
      case "header" -> HeaderTable.text(NETLIST, BOARD);
      case "induced" -> new Induced(BOARD).table();
      case "parts" -> PartsPage.text(NETLIST, PartsList.revisionA(), BOARD::nominal);
      case "plug" -> PlugTable.text(CodedPlug.nominal());
      case "power" -> PowerTable.text(new PowerBudget(NETLIST, BOARD));
      case "test-points" -> readings.text(BOARDS, SEED);
      case "words" -> new HandWords(BOARD).table();
      default -> throw new IllegalArgumentException("table=" + table);
    };
  }

  @ParameterizedTest
  @MethodSource("tables")
  void aTableIsWhatTheDataGive(String name) throws IOException {
    NotesTable table = DeckRuns.table(name);
    if (DeckRuns.write()) {
      table.write(computed(name));
    }
    assertThat(table.read()).as(ANEW).isEqualTo(computed(name));
  }

  static List<String> pages() throws IOException {
    try (Stream<Path> files = Files.list(NOTES)) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(name -> name.endsWith(".md"))
          .sorted()
          .toList();
    }
  }

  @ParameterizedTest
  @MethodSource("pages")
  void aPagesFiguresAreWhatTheDataGive(String name) throws IOException {
    String text = Files.readString(NOTES.resolve(name));
    NotesPage page = new NotesPage(text);
    Map<String, String> known = known(page);
    assertThat(page.names()).isSubsetOf(known.keySet());
    assertThat(page.stray()).isZero();
    if (DeckRuns.write()) {
      text = page.with(known);
      Files.writeString(NOTES.resolve(name), text);
    }
    assertThat(text).as(ANEW).isEqualTo(new NotesPage(text).with(known));
  }

  /** The computed figures, and those that the page takes from the board's file as they are. */
  private static Map<String, String> known(NotesPage page) {
    Map<String, String> known = new HashMap<>(figures);
    for (String name : page.names()) {
      FileFigures.text(BOARD, name).ifPresent(text -> known.put(name, text));
    }
    return known;
  }

  @Test
  void noFigureIsComputedForNobody() throws IOException {
    Set<String> used = new TreeSet<>();
    for (String page : pages()) {
      used.addAll(new NotesPage(Files.readString(NOTES.resolve(page))).names());
    }
    assertThat(used).containsAll(figures.keySet());
  }

  @ParameterizedTest
  @MethodSource("pages")
  void aQuantityIsAFigureOrSaysWhereItIsFrom(String name) throws IOException {
    if (!WITHOUT_NAMES.contains(name)) {
      assertThat(new NotesPage(Files.readString(NOTES.resolve(name))).unsupported()).isEmpty();
    }
  }

  @ParameterizedTest
  @MethodSource("pages")
  void aPagesLinksLeadSomewhere(String name) throws IOException {
    for (String link : new NotesPage(Files.readString(NOTES.resolve(name))).links()) {
      assertThat(NOTES.resolve(link)).exists();
    }
  }

  @ParameterizedTest
  @MethodSource("pages")
  void theCautionsStandAtTheHeadOfAPage(String name) throws IOException {
    String text = Files.readString(NOTES.resolve(name));
    String head = text.substring(0, Math.min(text.length(), name.equals("README.md") ? 5000 : 900));
    assertThat(head.toLowerCase(java.util.Locale.ROOT).replace('\n', ' ').replace("> ", ""))
        .contains(
            "low voltage only", "live-dead-live", "find it, then fit the same type and rating")
        .containsPattern("licensed work is for those who hold a licence")
        .contains("nobody has built this board");
  }

  /** Every chip, reference and relay part says what to look up in another type's data sheet. */
  @Test
  void whatIsNoPlainPartSaysWhatToCheck() {
    List<String> silent = new ArrayList<>();
    for (PartLine line : PartsList.revisionA().lines()) {
      boolean plain = Set.of("resistor", "capacitor", "connector").contains(line.kind());
      if (!plain && line.check().isBlank()) {
        silent.add(line.name());
      }
    }
    assertThat(silent).isEmpty();
  }
}
