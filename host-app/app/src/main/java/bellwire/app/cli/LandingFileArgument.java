package bellwire.app.cli;

import bellwire.app.landing.Described;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingFile;
import bellwire.yaml.FileException;
import bellwire.yaml.YamlFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import picocli.CommandLine.Parameters;

/** The landing file that a command works on. */
final class LandingFileArgument {
  @Parameters(
      index = "0",
      paramLabel = "FILE",
      description =
          "A landing file, or a built-in example; 'bellwire landing start' prints one to fill in.")
  Path file = Path.of("");

  /** Something in the file, or on the way to it, that the user can put right. */
  static final class Unusable extends Exception {
    private static final long serialVersionUID = 1;

    Unusable(String words) {
      super(words);
    }
  }

  private boolean builtIn() {
    return Described.EXAMPLES.contains(file.toString()) && !Files.exists(file);
  }

  /** The file as it is written. */
  String text() throws FileException, IOException {
    return builtIn() ? Described.text(file.toString()) : YamlFile.read(file);
  }

  /** The file's text, with a survey's figures in it where it names one: it needs no other file. */
  String whole() throws Unusable {
    try {
      Path directory = builtIn() ? null : file.toAbsolutePath().getParent();
      return LandingDraft.read(file.toString(), text(), directory == null ? Path.of("") : directory)
          .text();
    } catch (FileException e) {
      throw new Unusable(e.getMessage() + ", or leave --job out: a job keeps a landing by itself");
    } catch (IOException e) {
      throw new Unusable(file + ": cannot be read: is the name right, and may you read it?");
    }
  }

  LandingFile read() throws Unusable {
    try {
      return builtIn() ? Described.example(file.toString()) : LandingFile.read(file);
    } catch (FileException e) {
      throw new Unusable(String.valueOf(e.getMessage()));
    } catch (NoSuchFileException e) {
      throw new Unusable(
          e.getFile() + ": no such file; 'bellwire landing start' prints one to fill in");
    } catch (IOException e) {
      String words = String.valueOf(e.getMessage());
      // Ours end in a remedy; the system's are bare.
      if (words.contains(";")) {
        throw new Unusable(words);
      }
      throw new Unusable(
          file
              + (Files.isDirectory(file)
                  ? ": is a directory; name a file in it"
                  : ": cannot be read: is the name right, and may you read it?"));
    }
  }
}
