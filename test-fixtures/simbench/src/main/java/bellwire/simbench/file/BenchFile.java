package bellwire.simbench.file;

import java.io.IOException;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.nodes.Node;

/** Reads bench files. Everything wrong with one is a {@link BenchFileException} with its line. */
public final class BenchFile {
  /** Largest file taken, bytes. */
  public static final int MAX_BYTES = 1 << 20;

  private static final int VERSION = 1;

  private BenchFile() {}

  public static Bench read(Path path) throws BenchFileException, IOException {
    if (Files.size(path) > MAX_BYTES) {
      throw new BenchFileException(
          path.toString(), 0, "file too long: bytes=" + Files.size(path), "keep to 1 MiB");
    }
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .decode(ByteBuffer.wrap(Files.readAllBytes(path)))
              .toString();
      return parse(path.toString(), text);
    } catch (CharacterCodingException e) {
      throw new BenchFileException(path.toString(), 0, "not UTF-8 text", "save it as UTF-8");
    }
  }

  /**
   * @param file name to blame
   * @param text a bench file's content
   */
  public static Bench parse(String file, String text) throws BenchFileException {
    if (text.length() > MAX_BYTES) {
      throw new BenchFileException(
          file, 0, "file too long: characters=" + text.length(), "keep to 1 MiB");
    }
    Section root = new Section(file, "the file", compose(file, text));
    int version = root.integer("bellwire-bench", 0, Integer.MAX_VALUE);
    if (version != VERSION) {
      throw root.problemAt(
          "bellwire-bench",
          "unknown version: bellwire-bench=" + version,
          "write 'bellwire-bench: " + VERSION + "'");
    }
    return new BenchReader(root).read();
  }

  private static Node compose(String file, String text) throws BenchFileException {
    LoaderOptions options = new LoaderOptions();
    options.setCodePointLimit(MAX_BYTES);
    options.setNestingDepthLimit(20);
    options.setMaxAliasesForCollections(0);
    try {
      List<Node> documents = new java.util.ArrayList<>();
      for (Node node : new Yaml(options).composeAll(new StringReader(text))) {
        documents.add(node);
      }
      if (documents.size() != 1) {
        throw new BenchFileException(
            file, 1, "not one document: documents=" + documents.size(), "write one bench a file");
      }
      return documents.get(0);
    } catch (MarkedYAMLException e) {
      int line = e.getProblemMark() == null ? 0 : e.getProblemMark().getLine() + 1;
      throw new BenchFileException(
          file, line, "not YAML: " + oneLine(e.getProblem()), "check brackets and indentation");
    } catch (YAMLException e) {
      throw new BenchFileException(
          file, 0, "not YAML: " + oneLine(e.getMessage()), "check brackets and indentation");
    }
  }

  private static String oneLine(@org.jspecify.annotations.Nullable String text) {
    return text == null ? "unreadable" : text.replaceAll("\\s+", " ").trim();
  }
}
