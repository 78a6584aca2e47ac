package bellwire.app.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.app.job.Fact;
import bellwire.app.job.FullFile;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Tick;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** That no change is lost where the file has no room for it. */
class KeepingTest {
  /** More than the pages that are there have room for. */
  private static final String LONG = "rust ".repeat(1900);

  @TempDir Path directory;

  private final List<Unkept> unkept = new CopyOnWriteArrayList<>();
  private final List<Change> told = new CopyOnWriteArrayList<>();

  private Visit full(Path file) throws Exception {
    Visit visit = Visit.open(file, new Boards.Demo(false));
    visit.listen(told::add);
    visit.listenUnkept(unkept::add);
    visit.ask(all -> FullFile.full(all, true)).get(10, TimeUnit.SECONDS);
    return visit;
  }

  private static CompletableFuture<String> notes(Visit visit, String text) {
    return visit.change(
        Change.FACTS,
        all -> {
          all.fact(Fact.NOTES, text);
          return text;
        });
  }

  @Test
  void whatHasNoRoomWaitsInItsTurnAndIsKeptWhenThereIsSome() throws Exception {
    Path file = directory.resolve("job.bellwire");
    try (Visit visit = full(file)) {
      CompletableFuture<String> first = notes(visit, LONG);
      CompletableFuture<String> second = notes(visit, "short");
      CompletableFuture<String> third =
          visit.change(
              Change.TICKS,
              all -> {
                all.put(new Tick("seal", Tick.State.DONE, Tick.Basis.WITNESSED, "Kim", 1, "putty"));
                return "ticked";
              });
      assertThat(visit.ask(all -> all.fact(Fact.NOTES)).get(10, TimeUnit.SECONDS)).isEmpty();
      assertThat(List.of(first, second, third)).noneMatch(CompletableFuture::isDone);
      assertThat(unkept).extracting(Unkept::changes).containsExactly(1, 2, 3);
      assertThat(visit.unkept().why()).contains("job.bellwire", "the disk is full; make room");
      assertThat(told).isEmpty();

      visit.ask(all -> FullFile.full(all, false)).get(10, TimeUnit.SECONDS);
      assertThat(third.get(10, TimeUnit.SECONDS)).isEqualTo("ticked");
      assertThat(first.get()).isEqualTo(LONG);
      assertThat(told).containsExactly(Change.FACTS, Change.FACTS, Change.TICKS);
      visit.ask(all -> true).get(10, TimeUnit.SECONDS);
      assertThat(visit.unkept()).isEqualTo(Unkept.NONE);
    }
    try (JobFile job = JobFile.open(file)) {
      assertThat(job.records().fact(Fact.NOTES)).isEqualTo("short");
      assertThat(job.records().ticks()).hasSize(1);
    }
  }

  @Test
  void whatStillWaitsWhenTheJobIsClosedIsToldAsNotKept() throws Exception {
    Visit visit = full(directory.resolve("job.bellwire"));
    CompletableFuture<String> note = notes(visit, LONG);
    visit.close();
    assertThatThrownBy(() -> note.get(10, TimeUnit.SECONDS))
        .hasMessageContainingAll("not kept", "job.bellwire", "the disk is full; make room");
  }

  @Test
  void whatIsRefusedForGoodDoesNotWait() throws Exception {
    try (Visit visit = full(directory.resolve("job.bellwire"))) {
      CompletableFuture<String> note = notes(visit, LONG + LONG);
      assertThatThrownBy(() -> note.get(10, TimeUnit.SECONDS))
          .hasCauseInstanceOf(JobFileException.class)
          .hasMessageContaining("10,000 are the most");
      assertThat(unkept).isEmpty();
    }
  }

  @Test
  void noMoreWaitThanAPersonCanType() throws Exception {
    try (Visit visit = full(directory.resolve("job.bellwire"))) {
      for (int i = 0; i < Keeping.MOST; i++) {
        var unused = notes(visit, LONG);
      }
      assertThatThrownBy(() -> notes(visit, LONG).get(10, TimeUnit.SECONDS))
          .hasMessageContaining(Keeping.MOST + " changes wait");
      visit.ask(all -> FullFile.full(all, false)).get(10, TimeUnit.SECONDS);
    }
  }
}
