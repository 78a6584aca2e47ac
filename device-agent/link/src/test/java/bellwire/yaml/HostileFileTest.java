package bellwire.yaml;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Files that nobody writes by mistake, against the limits of the reader. */
class HostileFileTest {
  private static final String HEAD = "kind: 1\n";

  @TempDir Path directory;

  private static Section root(String text) throws FileException {
    return YamlFile.root("a.yaml", text, "kind", 1);
  }

  private static String refused(ThrowingCallable reading) {
    FileException e = catchThrowableOfType(FileException.class, reading);
    assertThat(e).isNotNull();
    assertThat(e.getMessage()).startsWith("a.yaml:").contains("; ").hasSizeLessThan(1600);
    return String.valueOf(e.getMessage());
  }

  /** Nine levels of nine aliases each would be 387 million items. */
  @Test
  void aliasesDoNotExpand() {
    StringBuilder text = new StringBuilder(HEAD + "a0: &a0 [x, x, x]\n");
    for (int i = 1; i < 10; i++) {
      String before = "*a" + (i - 1);
      text.append("a" + i + ": &a" + i + " [" + (before + ", ").repeat(8) + before + "]\n");
    }
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long bytes = threads.getCurrentThreadAllocatedBytes();
    refused(() -> root(text.toString()));
    assertThat(threads.getCurrentThreadAllocatedBytes() - bytes).isLessThan(20_000_000);
  }

  @ParameterizedTest
  @ValueSource(strings = {"[", "{a: ", "- ", "? "})
  void depthIsRefused(String opening) {
    refused(() -> root(HEAD + "a: " + opening.repeat(30_000)));
    refused(() -> root(HEAD + "a: " + opening.repeat(30)));
  }

  @Test
  void aMappingThatMergesItselfIsRefused() {
    refused(() -> root("kind: 1\na: &a {<<: *a}\n").required("a").done());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "1e308",
        "-1e308",
        "1e999",
        "1e-999",
        "99999999999999999999999999999999999999",
        ".nan",
        ".inf",
        "0x10"
      })
  void anAbsurdNumberIsOutOfBoundsOrNone(String number) throws FileException {
    Section section = root(HEAD + "a: " + number + "\nb: " + number + " m\n");
    boolean small = number.equals("1e-999");
    if (small) {
      assertThat(section.number("a", -1, 1)).isZero();
    } else {
      refused(() -> section.number("a", -1e6, 1e6));
      refused(() -> section.quantity("b", Dimension.LENGTH, -1e6, 1e6));
      refused(() -> section.integer("a", 0, 100));
      refused(() -> section.seed("b"));
    }
  }

  @Test
  void nulAndOtherControlsAreNoText() {
    refused(() -> root(HEAD + "a: x\u0000y\n"));
    refused(() -> root(HEAD + "a: x\u001by\n"));
  }

  @Test
  void aKeyThatRunsTheOtherWayIsShownByItsNumber() throws FileException {
    Section section = root(HEAD + "\"a\\u202Eb\": 1\n");
    assertThat(refused(section::done)).contains("key=a\\u202eb");
  }

  @Test
  void aHugeValueIsNotRepeatedWhole() throws FileException {
    Section section = root(HEAD + "a: " + "x".repeat(500_000) + "\n");
    assertThat(refused(() -> section.number("a", 0, 1))).contains("xxx…");
  }

  /** Found by the fuzzer: equipment without loads, and a call that names one. */
  @Test
  void aNameWhereNoneIsKnownIsToldWhatToDo() {
    assertThat(Spelling.remedy("gas valve", List.of())).contains("leave this out");
    assertThat(Spelling.remedy("gas valv", List.of("gas valve"))).contains("did you mean");
  }

  @Test
  void manyKeysAreTakenInTime() throws FileException {
    StringBuilder text = new StringBuilder(HEAD);
    IntStream.range(0, 60_000).forEach(i -> text.append("k" + i + ": 1\n"));
    assertThat(refused(root(text.toString())::done)).contains("unknown key");
  }

  @Test
  void manyDocumentsAreRefused() {
    refused(() -> root(HEAD + "---\n".repeat(100_000)));
  }

  @Test
  void aLongFileAndOneThatIsNotUtf8AreRefused() throws Exception {
    Path file = directory.resolve("a.yaml");
    Files.write(file, new byte[YamlFile.MAX_BYTES + 1]);
    assertThat(catchThrowableOfType(FileException.class, () -> YamlFile.read(file)))
        .hasMessageContaining("keep to 1 MiB");
    Files.write(file, new byte[] {'a', (byte) 0xFF});
    assertThat(catchThrowableOfType(FileException.class, () -> YamlFile.read(file)))
        .hasMessageContaining("save it as UTF-8");
  }

  /** It has no length that could be asked, and no end. */
  @Test
  void whatHasNoEndIsRefused() {
    Path endless = Path.of("/dev/zero");
    if (Files.exists(endless)) {
      assertThat(catchThrowableOfType(FileException.class, () -> YamlFile.read(endless)))
          .hasMessageContaining("keep to 1 MiB");
    }
  }
}
