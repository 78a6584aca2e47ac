package bellwire.fuzz;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;

/** The inputs of each target that are kept: what a run found that reaches code no other reaches. */
public final class Kept {
  /** Before the names of files that a run begins with. */
  public static final String BEGUN_WITH = "begin-";

  private static final int MOST_BYTES = 12_000;

  /** If each took all that it may. */
  private static final long MOST_MILLIS = 24_000;

  private static final LocalDateTime WHENEVER = LocalDateTime.of(2000, 1, 1, 0, 0);

  private Kept() {}

  /** In the order of their length; none where none are kept. */
  public static List<byte[]> inputs(Entry entry) throws IOException {
    try (InputStream in = Kept.class.getResourceAsStream(entry.word() + ".zip")) {
      return in == null ? List.of() : unpacked(in);
    }
  }

  private static List<byte[]> unpacked(InputStream in) throws IOException {
    List<byte[]> inputs = new ArrayList<>();
    try (ZipInputStream zip = new ZipInputStream(in)) {
      while (zip.getNextEntry() != null) {
        inputs.add(zip.readAllBytes());
      }
    }
    return inputs;
  }

  /**
   * What a run has added to a directory, packed: the shortest that have room together, and as many
   * as the gate has time for.
   */
  public static byte[] packed(Entry entry, Path directory) throws IOException {
    List<byte[]> inputs = new ArrayList<>();
    try (Stream<Path> files = Files.list(directory)) {
      for (Path file : files.toList()) {
        if (!String.valueOf(file.getFileName()).startsWith(BEGUN_WITH)) {
          inputs.add(Files.readAllBytes(file));
        }
      }
    }
    inputs.sort(
        Comparator.<byte[]>comparingInt(input -> input.length).thenComparing(Arrays::compare));
    int most = (int) (MOST_MILLIS / entry.bounds().cpuMillis());
    inputs = inputs.subList(0, Math.min(most, inputs.size()));
    byte[] last = packed(inputs);
    while (last.length > MOST_BYTES) {
      int few = (int) (inputs.size() * (double) MOST_BYTES / last.length);
      inputs = inputs.subList(0, Math.min(few, inputs.size() - 1));
      last = packed(inputs);
    }
    return last;
  }

  private static byte[] packed(List<byte[]> inputs) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      zip.setLevel(9);
      for (int i = 0; i < inputs.size(); i++) {
        ZipEntry one = new ZipEntry(Integer.toString(i));
        one.setTimeLocal(WHENEVER);
        zip.putNextEntry(one);
        new ByteArrayInputStream(inputs.get(i)).transferTo(zip);
        zip.closeEntry();
      }
    }
    return out.toByteArray();
  }
}
