package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The user guide's pictures: those that the journey took, 1366×768 in the light look. */
final class GuidePictures {
  private static final Pattern NAMED = Pattern.compile("\\(images/([a-z]+)\\.png\\)");

  private GuidePictures() {}

  /** Each that the guide names is there and is one that the journey takes. */
  static void checked() throws IOException {
    Path docs = docs();
    Set<String> named = new TreeSet<>();
    Matcher matcher = NAMED.matcher(Files.readString(docs.resolve("user-guide.md")));
    while (matcher.find()) {
      named.add(matcher.group(1));
    }
    assertThat(named).hasSize(8);
    for (String name : named) {
      Path taken = Path.of("target", "screenshots", "journey-" + name + "-1366x768-light.png");
      Path kept = docs.resolve("images").resolve(name + ".png");
      assertThat(taken).as("the guide's picture, taken now").exists();
      if (Boolean.getBoolean("bellwire.write")) {
        Files.createDirectories(kept.getParent());
        Files.copy(taken, kept, StandardCopyOption.REPLACE_EXISTING);
      }
      assertThat(kept).as("the guide's picture; -Dbellwire.write=true makes it").exists();
      assertThat(Files.size(kept)).as(name).isLessThan(200_000);
    }
  }

  private static Path docs() {
    Path at = Path.of("").toAbsolutePath();
    while (at != null && !Files.exists(at.resolve("docs/user-guide.md"))) {
      at = at.getParent();
    }
    return java.util.Objects.requireNonNull(at, "no docs/user-guide.md above").resolve("docs");
  }
}
