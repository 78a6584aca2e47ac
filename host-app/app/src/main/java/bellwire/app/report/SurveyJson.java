package bellwire.app.report;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A survey's JSON, read back: docs/survey-json.md. */
public final class SurveyJson {
  private static final int MAX_BYTES = 1 << 22;
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private SurveyJson() {}

  /**
   * The document, of a version that this program reads.
   *
   * @param writer what writes such a file, such as 'survey --json'
   * @param purpose what it is read for: 'compare'
   * @throws IOException with a sentence that names the file and ends in a remedy
   */
  public static JsonNode read(Path file, String writer, String purpose) throws IOException {
    if (!Files.isRegularFile(file)) {
      throw new IOException(file + ": no such file; name one that " + writer + " wrote");
    }
    if (Files.size(file) > MAX_BYTES) {
      throw new IOException(file + ": too long for a survey's result; name another file");
    }
    return parse(file.toString(), Files.readAllBytes(file), writer, purpose);
  }

  /**
   * The same of a text.
   *
   * @param file name to blame
   */
  public static JsonNode parse(String file, byte[] text, String writer, String purpose)
      throws IOException {
    JsonNode root;
    try {
      root = MAPPER.readTree(text);
    } catch (IOException e) {
      throw new IOException(file + ": not JSON; name a file that " + writer + " wrote", e);
    }
    if (root == null || !root.has("bellwire-survey")) {
      throw new IOException(file + ": no survey; name a file that " + writer + " wrote");
    }
    if (root.path("bellwire-survey").asInt(0) != ResultJson.VERSION) {
      throw new IOException(
          file
              + ": version "
              + root.path("bellwire-survey").asText()
              + " of a survey's result, and this program reads "
              + ResultJson.VERSION
              + "; "
              + purpose
              + " with the program that wrote it, or measure again");
    }
    return root;
  }
}
