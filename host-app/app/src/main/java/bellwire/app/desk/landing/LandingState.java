package bellwire.app.desk.landing;

import bellwire.app.desk.DeskContext;
import bellwire.app.job.LandingRow;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.app.landing.SurveyedCable;
import bellwire.app.visit.Change;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongConsumer;
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

  private LandingStart.Known known = new LandingStart.Known(List.of(), null);
  private LongConsumer opening = id -> {};
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
    known = opened.known();
    stored = opened.row() != 0;
    show(opened.draft());
  }

  /** The job's cables and newest survey. */
  LandingStart.Known known() {
    return known;
  }

  /** News of them; the landing stays as it is. */
  void known(LandingStart.Known news) {
    known = news;
    tell();
  }

  /** The landing with the newest survey's conductors; null where it has them already. */
  @Nullable LandingDraft withSurvey() {
    LandingDraft now = draft;
    SurveyedCable surveyed = known.surveyed();
    if (now == null || surveyed == null) {
      return null;
    }
    LandingDraft after = now.withCable(surveyed);
    return after.equals(now) ? null : after;
  }

  /** Told to open another cable's landing. */
  void onOpen(LongConsumer open) {
    opening = open;
  }

  /** Another cable's landing. */
  void cable(long id) {
    if (id != cable) {
      ctx.left("landing.cable", Long.toString(id));
      opening.accept(id);
    }
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
    long of = cable;
    AtomicLong at = row;
    ctx.undo().did(PAGE, words, () -> go(before, on, of, at), () -> go(after, on, of, at));
    go(after, on, of, at);
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

  /** To a draft of this cable, or of one that was in view before. */
  private void go(LandingDraft to, Which on, long of, AtomicLong at) {
    which = on;
    save(to, of, at);
    if (of == cable) {
      row = at;
      stored = true;
      show(to);
    } else {
      cable(of);
    }
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

  private void save(LandingDraft saved, long of, AtomicLong at) {
    String text = saved.text();
    ctx.later(
        ctx.visit()
            .change(
                Change.LANDINGS,
                job -> {
                  long now = System.currentTimeMillis() * 1000;
                  long id = job.put(new LandingRow(at.get(), of, now, text));
                  at.set(id);
                  return id;
                }),
        id -> {});
  }

  private void tell() {
    List.copyOf(listeners).forEach(Runnable::run);
  }
}
