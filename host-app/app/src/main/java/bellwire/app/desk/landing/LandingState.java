package bellwire.app.desk.landing;

import bellwire.app.desk.DeskContext;
import bellwire.app.job.LandingRow;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.app.visit.Change;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import org.jspecify.annotations.Nullable;

/**
 * The landing in hand: what is edited, which of its plans is in view, what is lit. Each edit is put
 * into the job and can be taken back. Used on the event thread.
 */
final class LandingState {
  static final String PAGE = "landing";

  private final DeskContext ctx;
  private final List<Runnable> listeners = new ArrayList<>();

  /**
   * The key of the landing in hand, known once it is in the job: 0 before. Another's is another.
   */
  private AtomicLong row = new AtomicLong();

  private @Nullable LandingDraft draft;
  private long cable;
  private boolean stored;
  private Which which = Which.AS_PLANNED;
  private Set<String> lit = Set.of();
  private @Nullable Checked checked;

  LandingState(DeskContext ctx) {
    this.ctx = ctx;
    which = ctx.left("landing.which").equals("found") ? Which.AS_FOUND : Which.AS_PLANNED;
  }

  /** Told after each change of anything here. */
  void listen(Runnable listener) {
    listeners.add(listener);
  }

  /** Null until the job has told. */
  @Nullable LandingDraft draft() {
    return draft;
  }

  Which which() {
    return which;
  }

  long cable() {
    return cable;
  }

  /** Keys of the drawing that carry the current of what is looked at. */
  Set<String> lit() {
    return lit;
  }

  /** Of the draft and plan in view; null while it is being checked, or can't be. */
  @Nullable Checked checked() {
    return checked;
  }

  /** Whether it is in the job, or about to be. */
  boolean stored() {
    return stored;
  }

  /** Another landing, from the job: not an edit. */
  void open(LandingStart.Opened opened) {
    cable = opened.cable();
    row = new AtomicLong(opened.row());
    stored = opened.row() != 0;
    show(opened.draft());
  }

  void which(Which wanted) {
    which = wanted;
    ctx.left("landing.which", wanted == Which.AS_FOUND ? "found" : "planned");
    stale();
  }

  /**
   * An edit by a person.
   *
   * @param words what was done: 'red landed under Y at the equipment'
   */
  void edit(String words, LandingDraft after) {
    LandingDraft before = draft;
    if (before == null || before.equals(after)) {
      return;
    }
    Which on = which;
    ctx.undo().did(PAGE, words, () -> go(before, on), () -> go(after, on));
    go(after, on);
  }

  void light(Set<String> keys) {
    lit = keys;
    tell();
  }

  void checked(Checked result) {
    if (result.draft().equals(draft) && result.which() == which) {
      checked = result;
      tell();
    }
  }

  private void go(LandingDraft to, Which on) {
    which = on;
    show(to);
    save(to);
  }

  private void show(LandingDraft shown) {
    draft = shown;
    stale();
  }

  private void stale() {
    checked = null;
    lit = Set.of();
    tell();
  }

  private void save(LandingDraft saved) {
    stored = true;
    String text = saved.text();
    long of = cable;
    AtomicLong key = row;
    ctx.later(
        ctx.visit()
            .change(
                Change.LANDINGS,
                job -> {
                  long now = System.currentTimeMillis() * 1000;
                  long id = job.put(new LandingRow(key.get(), of, now, text));
                  key.set(id);
                  return id;
                }),
        id -> {});
  }

  private void tell() {
    List.copyOf(listeners).forEach(Runnable::run);
  }
}
