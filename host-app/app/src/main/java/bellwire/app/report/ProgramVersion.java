package bellwire.app.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Properties;

/** The version that the build wrote into the jar. */
public final class ProgramVersion {
  private static final String RESOURCE = "/bellwire/app/cli/version.properties";

  private ProgramVersion() {}

  /** Such as '0.7'. */
  public static String text() {
    Properties properties = new Properties();
    try (InputStream in = ProgramVersion.class.getResourceAsStream(RESOURCE)) {
      if (in == null) {
        throw new IllegalStateException("missing resource name=" + RESOURCE);
      }
      properties.load(in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return properties.getProperty("version");
  }
}
