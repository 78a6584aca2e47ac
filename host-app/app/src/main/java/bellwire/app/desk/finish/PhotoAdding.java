package bellwire.app.desk.finish;

import bellwire.app.desk.DeskContext;
import bellwire.app.job.Photo;
import bellwire.app.job.Stage;
import bellwire.app.visit.Change;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.LongConsumer;

/** Takes photographs into the job, reading their files in the background. */
final class PhotoAdding {
  /** Somewhat above the job file's own bound, which says the remedy; no more is read. */
  private static final long MOST_READ_BYTES = 200_000_000;

  private final DeskContext ctx;
  private final Clock clock;
  private final LongConsumer added;

  /**
   * @param added told the key of each, on the event thread
   */
  PhotoAdding(DeskContext ctx, Clock clock, LongConsumer added) {
    this.ctx = ctx;
    this.clock = clock;
    this.added = added;
  }

  void add(Stage stage, List<Path> files) {
    for (Path file : files) {
      ctx.later(
          CompletableFuture.supplyAsync(() -> read(file)),
          picture -> put(photo(stage, ""), picture, file));
    }
  }

  private Photo photo(Stage stage, String caption) {
    long now = ChronoUnit.MICROS.between(Instant.EPOCH, clock.instant());
    return new Photo(0, stage, caption, now, "", 0);
  }

  private static byte[] read(Path file) {
    try {
      long bytes = Files.size(file);
      if (bytes > MOST_READ_BYTES) {
        throw new CompletionException(
            new IOException(file + ": is no photograph, it has " + bytes / 1_000_000 + " MB"));
      }
      return Files.readAllBytes(file);
    } catch (NoSuchFileException e) {
      throw new CompletionException(
          new IOException(file + ": there is no such file; look at its name", e));
    } catch (IOException e) {
      throw new CompletionException(
          new IOException(file + ": cannot be read; copy it to this computer first", e));
    }
  }

  private void put(Photo photo, byte[] picture, Path file) {
    ctx.later(
        ctx.visit().change(Change.PHOTOS, all -> all.add(photo, picture)),
        id -> {
          long[] now = {id};
          ctx.undo()
              .did(
                  "finish",
                  "photograph " + file.getFileName() + " added",
                  () -> remove(now[0]),
                  () -> again(photo, picture, now));
          added.accept(id);
        },
        failure -> ctx.notices().trouble(new IOException(file + ": " + why(failure), failure)));
  }

  /** Which picture is told beside it. */
  private String why(Throwable failure) {
    Throwable cause = failure.getCause() == null ? failure : failure.getCause();
    String words = String.valueOf(cause.getMessage());
    String job = ctx.visit().file() + ": ";
    return words.startsWith(job) ? words.substring(job.length()) : words;
  }

  /** Removes one so that it can be put back, under another key. */
  void remove(Photo photo) {
    ctx.later(
        ctx.visit()
            .change(
                Change.PHOTOS,
                all -> {
                  byte[] picture = all.photoBytes(photo.id());
                  all.removePhoto(photo.id());
                  return picture;
                }),
        picture -> {
          long[] now = {photo.id()};
          ctx.undo()
              .did(
                  "finish",
                  "photograph removed",
                  () -> again(photo, picture, now),
                  () -> remove(now[0]));
        });
  }

  private void remove(long photo) {
    ctx.later(
        ctx.visit()
            .change(
                Change.PHOTOS,
                all -> {
                  all.removePhoto(photo);
                  return photo;
                }),
        done -> {});
  }

  private void again(Photo photo, byte[] picture, long[] now) {
    ctx.later(ctx.visit().change(Change.PHOTOS, all -> all.add(photo, picture)), id -> now[0] = id);
  }

  /** Changes what one is of. */
  void change(Photo photo, Stage stage, String caption) {
    if (photo.stage() == stage && photo.caption().equals(caption)) {
      return;
    }
    keep(photo.id(), stage, caption);
    ctx.undo()
        .did(
            "finish",
            "photograph's words changed",
            () -> keep(photo.id(), photo.stage(), photo.caption()),
            () -> keep(photo.id(), stage, caption));
  }

  private void keep(long photo, Stage stage, String caption) {
    ctx.later(
        ctx.visit()
            .change(
                Change.PHOTOS,
                all -> {
                  // It may have been taken out meanwhile, and put back under another key.
                  boolean there = all.photos().stream().anyMatch(p -> p.id() == photo);
                  if (there) {
                    all.change(photo, stage, caption);
                  }
                  return there;
                }),
        done -> {});
  }
}
