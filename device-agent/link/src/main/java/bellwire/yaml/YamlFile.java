package bellwire.yaml;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.nodes.Node;

/** Opens a file of one YAML document. */
public final class YamlFile {
  /** Largest file taken, bytes. */
  public static final int MAX_BYTES = 1 << 20;

  private YamlFile() {}

  /** A file's text. */
  public static String read(Path path) throws FileException, IOException {
    byte[] bytes;
    try (InputStream in = Files.newInputStream(path)) {
      // Not by the length that it says: a device has none, and no end.
      bytes = in.readNBytes(MAX_BYTES + 1);
    }
    if (bytes.length > MAX_BYTES) {
      throw new FileException(path.toString(), 0, "file too long", "keep to 1 MiB");
    }
    try {
      return StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
    } catch (CharacterCodingException e) {
      throw new FileException(path.toString(), 0, "not UTF-8 text", "save it as UTF-8");
    }
  }

  /**
   * The document's mapping.
   *
   * @param file name to blame
   * @param kind key that holds the kind of file and its version, such as {@code bellwire-bench}
   * @param version the one version taken
   */
  public static Section root(String file, String text, String kind, int version)
      throws FileException {
    if (text.length() > MAX_BYTES) {
      throw new FileException(
          file, 0, "file too long: characters=" + text.length(), "keep to 1 MiB");
    }
    Section root = new Section(file, "the file", compose(file, text));
    int given = root.integer(kind, 0, Integer.MAX_VALUE);
    if (given != version) {
      throw root.problemAt(
          kind, "unknown version: " + kind + "=" + given, "write '" + kind + ": " + version + "'");
    }
    return root;
  }

  private static Node compose(String file, String text) throws FileException {
    LoaderOptions options = new LoaderOptions();
    options.setCodePointLimit(MAX_BYTES);
    options.setNestingDepthLimit(20);
    options.setMaxAliasesForCollections(0);
    try {
      List<Node> documents = new ArrayList<>();
      for (Node node : new Yaml(options).composeAll(new StringReader(text))) {
        documents.add(node);
      }
      if (documents.size() != 1) {
        throw new FileException(
            file, 1, "not one document: documents=" + documents.size(), "write one a file");
      }
      return documents.get(0);
    } catch (MarkedYAMLException e) {
      int line = e.getProblemMark() == null ? 0 : e.getProblemMark().getLine() + 1;
      throw new FileException(
          file, line, "not YAML: " + oneLine(e.getProblem()), "check brackets and indentation");
    } catch (YAMLException e) {
      throw new FileException(
          file, 0, "not YAML: " + oneLine(e.getMessage()), "check brackets and indentation");
    }
  }

  private static String oneLine(@Nullable String text) {
    return text == null ? "unreadable" : text.replaceAll("\\s+", " ").trim();
  }
}
