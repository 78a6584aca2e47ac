package bellwire.simbench.file;

import bellwire.yaml.FileException;
import bellwire.yaml.YamlFile;
import java.io.IOException;
import java.nio.file.Path;

/** Reads bench files. Everything wrong with one is a {@link FileException} with its line. */
public final class BenchFile {
  private static final int VERSION = 1;

  private BenchFile() {}

  public static Bench read(Path path) throws FileException, IOException {
    return parse(path.toString(), YamlFile.read(path));
  }

  /**
   * @param file name to blame
   * @param text a bench file's content
   */
  public static Bench parse(String file, String text) throws FileException {
    return new BenchReader(YamlFile.root(file, text, "bellwire-bench", VERSION)).read();
  }
}
