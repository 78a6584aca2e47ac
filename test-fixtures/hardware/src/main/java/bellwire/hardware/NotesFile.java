package bellwire.hardware;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** A file of {@code hardware-notes/}, as the build packs it. */
public final class NotesFile {
  private NotesFile() {}

  public static JsonNode yaml(String name) {
    try (InputStream in = open(name)) {
      return new YAMLMapper()
          .enable(com.fasterxml.jackson.core.JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
          .readTree(in);
    } catch (IOException e) {
      throw new UncheckedIOException(name + ": " + e.getMessage(), e);
    }
  }

  static String text(String name) {
    try (InputStream in = open(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(name + ": " + e.getMessage(), e);
    }
  }

  private static InputStream open(String name) {
    InputStream in = NotesFile.class.getResourceAsStream(name);
    if (in == null) {
      throw new IllegalStateException("missing resource " + name);
    }
    return in;
  }
}
