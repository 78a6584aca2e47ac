package bellwire.app.document.type;

/** The fonts that the program brings along. */
public enum Face {
  REGULAR("DejaVuSans.ttf"),
  BOLD("DejaVuSans-Bold.ttf"),
  /** Chinese and Japanese; 4 MB, read only where it is needed. */
  EAST_ASIAN("DroidSansFallbackFull.ttf");

  private final String file;

  Face(String file) {
    this.file = file;
  }

  String resource() {
    return "/bellwire/app/fonts/" + file;
  }
}
