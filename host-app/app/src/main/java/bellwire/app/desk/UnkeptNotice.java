package bellwire.app.desk;

import bellwire.app.desk.Notices.Notice;
import bellwire.app.visit.Unkept;
import org.jspecify.annotations.Nullable;

/** Says that changes wait for room in the job file, for as long as they do. */
final class UnkeptNotice {
  private final Notices notices;
  private @Nullable Notice shown;

  UnkeptNotice(Notices notices) {
    this.notices = notices;
  }

  void show(Unkept now) {
    boolean waited = clear();
    if (now.changes() > 0) {
      shown =
          notices.trouble(
              now.why()
                  + ". "
                  + count(now.changes())
                  + " in this window until then: what was typed is not lost while it is open.");
    } else if (waited) {
      notices.note("There is room again: everything is in the job file.");
    }
  }

  /** Whether one was shown. */
  boolean clear() {
    Notice before = shown;
    shown = null;
    if (before != null) {
      notices.dismiss(before);
    }
    return before != null;
  }

  static String count(int changes) {
    return changes == 1 ? "1 change waits" : changes + " changes wait";
  }
}
