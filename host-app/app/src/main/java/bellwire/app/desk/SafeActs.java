package bellwire.app.desk;

import bellwire.app.job.Act;
import bellwire.app.job.Act.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What has been recorded for safety's sake, and what of it still holds: switching on again undoes
 * what was switched off and proved before. Withdrawn acts count for nothing.
 *
 * @param all in the order in which they were recorded
 */
public record SafeActs(List<Act> all) {
  /** In working order. */
  static final List<Kind> WANTED =
      List.of(Kind.CAUTIONS_READ, Kind.SWITCHED_OFF, Kind.PROVED_DEAD, Kind.CLIPPED_TO_METAL);

  public SafeActs {
    all = List.copyOf(all);
  }

  /** The newest act of a kind that still holds. */
  public Optional<Act> standing(Kind kind) {
    Act found = null;
    for (Act act : all) {
      if (act.withdrawn()) {
        continue;
      }
      if (act.kind() == Kind.SWITCHED_ON
          && (kind == Kind.SWITCHED_OFF || kind == Kind.PROVED_DEAD)) {
        found = null;
      } else if (act.kind() == kind) {
        found = act;
      }
    }
    return Optional.ofNullable(found);
  }

  /** In working order; empty where all is recorded. */
  List<Kind> missing() {
    return WANTED.stream().filter(kind -> standing(kind).isEmpty()).toList();
  }

  /**
   * What a page that connects the board to a dead cable has to warn of; empty where the cautions
   * are read, the supplies off and the cable proved dead, all of it recorded.
   */
  public String warning() {
    List<String> open = new ArrayList<>();
    for (Kind kind : missing()) {
      if (kind != Kind.CLIPPED_TO_METAL) {
        open.add(openWords(kind));
      }
    }
    return open.isEmpty()
        ? ""
        : "Nothing is recorded of this yet: " + String.join("; ", open) + ". See 2 Safe.";
  }

  private static String openWords(Kind kind) {
    return switch (kind) {
      case CAUTIONS_READ -> "the cautions read";
      case SWITCHED_OFF -> "the supplies switched off";
      case PROVED_DEAD -> "the cable proved dead";
      case CLIPPED_TO_METAL -> "M clipped to metal";
      case SWITCHED_ON -> "the supplies switched on";
      case FUSE_REPLACED -> "a fuse replaced";
    };
  }

  /** What was done, for people. */
  static String words(Act act) {
    String what = act.what().isEmpty() ? "" : ": " + act.what();
    String reading = act.reading().isEmpty() ? "" : " (" + act.reading() + ")";
    return switch (act.kind()) {
          case CAUTIONS_READ -> "Cautions read";
          case SWITCHED_OFF -> "Switched off";
          case PROVED_DEAD -> "Proved dead";
          case CLIPPED_TO_METAL -> "M clipped to metal";
          case SWITCHED_ON -> "Switched on again";
          case FUSE_REPLACED -> "Fuse replaced";
        }
        + what
        + reading;
  }
}
