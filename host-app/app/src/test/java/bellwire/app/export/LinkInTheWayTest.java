package bellwire.app.export;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.app.document.page.Paper;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFile;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** An export writes into its directory and nowhere else, whatever lies there already. */
class LinkInTheWayTest {
  @TempDir Path directory;

  private JobExport.Order order() throws Exception {
    Path job = directory.resolve("../a?b.bellwire").normalize();
    try (JobFile open = JobFile.open(job)) {
      open.records().fact(Fact.CUSTOMER, "../../x");
    }
    return new JobExport.Order(
        job, Set.of(JobFormat.HTML), Paper.A4, Set.of(), Instant.EPOCH, ZoneOffset.UTC, "0");
  }

  private void assertRefusedAndNothingWritten(Path into) throws Exception {
    JobExport.Order order = order();
    assertThatThrownBy(() -> JobExport.write(order, into, () -> false))
        .isInstanceOf(FileAlreadyExistsException.class);
    try (Stream<Path> left = Files.list(into)) {
      assertThat(left.map(Path::getFileName).map(Path::toString)).containsExactly("report.html");
    }
  }

  @Test
  void aLinkUnderAFilesNameIsNotFollowed() throws Exception {
    Path into = Files.createDirectory(directory.resolve("out"));
    Path mine = Files.writeString(directory.resolve("mine"), "mine");
    Files.createSymbolicLink(into.resolve("report.html"), mine);
    assertRefusedAndNothingWritten(into);
    assertThat(mine).hasContent("mine");
  }

  @Test
  void aLinkToWhatIsNotThereIsNotFollowedEither() throws Exception {
    Path into = Files.createDirectory(directory.resolve("out"));
    Path nowhere = directory.resolve("nowhere");
    Files.createSymbolicLink(into.resolve("report.html"), nowhere);
    assertRefusedAndNothingWritten(into);
    assertThat(nowhere).doesNotExist();
  }

  @Test
  void aCustomersNameMakesNoPath() throws Exception {
    Path into = Files.createDirectory(directory.resolve("out"));
    List<Path> files = JobExport.write(order(), into, () -> false).files();
    assertThat(files).containsExactly(into.resolve("report.html"));
    assertThat(Files.readString(files.get(0))).contains("../../x");
  }
}
