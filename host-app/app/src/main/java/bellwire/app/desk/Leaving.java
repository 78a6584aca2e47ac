package bellwire.app.desk;

import bellwire.app.desk.Notices.Choice;
import bellwire.app.desk.Notices.Notice;
import bellwire.app.visit.Running;
import bellwire.app.visit.Unkept;
import bellwire.app.visit.VigilRunning;
import bellwire.app.visit.Visit;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Asks, before a job is left, where that would break something off or lose something; as a notice,
 * so that all goes on meanwhile.
 */
final class Leaving {
  private final Notices notices;
  private final Progress progress;
  private @Nullable Notice asked;

  Leaving(Notices notices, Progress progress) {
    this.notices = notices;
    this.progress = progress;
  }

  /** A question with the way to stay first. */
  record Question(String words, String stay, String go) {}

  /**
   * @param go closes the window, or opens another job: at once where nothing is lost by it
   * @return whether it was asked first
   */
  boolean ask(@Nullable Visit visit, Runnable go) {
    Notice before = asked;
    asked = null;
    if (before != null) {
      notices.dismiss(before);
    }
    Optional<Question> question = question(visit);
    if (question.isEmpty()) {
      go.run();
      return false;
    }
    Question of = question.get();
    asked = notices.ask(of.words(), new Choice(of.stay(), () -> {}), new Choice(of.go(), go));
    return true;
  }

  private Optional<Question> question(@Nullable Visit visit) {
    Unkept unkept = visit == null ? null : visit.unkept();
    if (unkept != null && unkept.changes() > 0) {
      return Optional.of(
          new Question(
              unkept.why() + ". " + UnkeptNotice.count(unkept.changes()) + ", and would be lost.",
              "Stay, and make room",
              "Leave, and lose that"));
    }
    Optional<Running<?>> running = visit == null ? Optional.empty() : visit.running();
    if (running.isPresent() && running.get() instanceof VigilRunning) {
      return Optional.of(
          new Question(
              "A vigil is under way. Left now, the board goes on alone as far as it can, and the"
                  + " vigil is gone on with from here later.",
              "Go on watching",
              "Let the board go on alone"));
    }
    if (running.isPresent()) {
      String what = running.get().what();
      return Optional.of(
          new Question(
              Character.toUpperCase(what.charAt(0))
                  + what.substring(1)
                  + " is under way. Left now, it is broken off, and nothing of it is kept.",
              "Go on with it",
              "Break it off"));
    }
    Progress.Task task = progress.running();
    return task == null
        ? Optional.empty()
        : Optional.of(
            new Question(
                "This is under way, and would not be finished: " + task.what() + ".",
                "Let it finish",
                "Leave it"));
  }
}
