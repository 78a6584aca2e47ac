package bellwire.hardware.deck;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A table in {@code hardware-notes/tables/}, made by a run and checked against one. */
public final class NotesTable {
  private final Path file;

  /**
   * @param notes the directory {@code hardware-notes}
   */
  public NotesTable(Path notes, String name) {
    file = notes.resolve("tables").resolve(name + ".md");
  }

  public String read() throws IOException {
    return Files.readString(file);
  }

  public void write(String text) throws IOException {
    Files.createDirectories(file.getParent());
    Files.writeString(file, text);
  }
}
