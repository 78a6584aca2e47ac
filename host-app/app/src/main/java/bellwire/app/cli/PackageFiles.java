package bellwire.app.cli;

import static java.util.stream.Collectors.joining;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import picocli.AutoComplete;

/**
 * Writes what the package needs of the command line's own words: {@code bellwire.1}, the manual
 * page, and {@code bellwire}, the completion for bash. The build runs it.
 */
public final class PackageFiles {
  private PackageFiles() {}

  /**
   * @param arguments the directory that takes them; it exists
   */
  public static void main(String[] arguments) throws IOException {
    Path directory = Path.of(arguments[0]);
    Files.writeString(directory.resolve("bellwire.1"), manual());
    Files.writeString(directory.resolve("bellwire"), completion());
  }

  static String manual() {
    return new ManPage(BellwireMain.commandLine()).text();
  }

  /** Sourced by bash; by zsh after {@code bashcompinit}. */
  static String completion() {
    String script = AutoComplete.bash("bellwire", BellwireMain.commandLine());
    // Without its first comment, which says how to install it, and how to start what is only
    // sourced.
    return "# Completion of bellwire's commands, made by its build with picocli's AutoComplete.\n"
        + script.lines().dropWhile(line -> line.startsWith("#")).collect(joining("\n", "", "\n"));
  }
}
