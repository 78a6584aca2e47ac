package bellwire.app.desk.vigil;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.NextAction;
import bellwire.app.desk.Page;
import bellwire.app.desk.Parts;
import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilRow;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilPrompts;
import bellwire.app.vigil.VigilRun;
import bellwire.app.visit.Change;
import java.nio.file.Path;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import javax.swing.JComponent;

/** Page 6: hours of watching. */
public final class VigilPage implements Page {
  private static final String FORM = "form";
  private static final String WATCHING = "watching";
  private static final String KEPT = "kept";

  private final DeskContext ctx;
  private final Parts parts;
  private final VigilForm form;
  private final VigilWatch watch;
  private final VigilKept kept;
  private List<VigilRow> rows = List.of();
  private VigilCount count = VigilCount.NONE;

  public VigilPage(DeskContext ctx) {
    this.ctx = ctx;
    parts = new Parts("vigil", this::shows);
    form = new VigilForm(ctx, () -> ctx.changed(this));
    watch = new VigilWatch(ctx, new Told());
    kept = new VigilKept(ctx);
    parts.add(FORM, "Set up", form);
    parts.add(WATCHING, "Watching", watch.panel());
    parts.add(KEPT, "Look again", kept);
    parts.offer(WATCHING, false);
    show(FORM);
    ctx.onChange(
        change -> {
          if (change == Change.VIGILS) {
            reload();
          } else if (change == Change.CABLES
              || change == Change.FACTS
              || change == Change.SURVEYS) {
            form.prefill();
          }
        });
    form.prefill();
    reload();
  }

  private void show(String which) {
    parts.show(which);
  }

  private void shows(String which) {
    if (focus().isShowing()) {
      focus().requestFocusInWindow();
    }
    if (which.equals(KEPT)) {
      kept.chooseLast();
    }
    ctx.changed(this);
  }

  private void reload() {
    Path job = ctx.visit().file();
    ctx.later(ctx.visit().ask(all -> VigilCount.read(job)), this::take);
  }

  private void take(VigilCount read) {
    List<VigilRow> now = read.rows();
    count = read;
    rows = now;
    kept.show(now);
    if (now.size() > 0) {
      watch.inFile(now.get(now.size() - 1));
    }
    if (parts.shown().equals(KEPT)) {
      kept.chooseLast();
    }
    ctx.changed(this);
  }

  /** What was switched off is switched on, and recorded, on the page for that. */
  private void heatAgain() {
    watch.heatDone();
    ctx.go("safe");
  }

  private Optional<VigilRow> unfinished() {
    return watch.running()
        ? Optional.empty()
        : VigilRun.lastBegun(rows).filter(row -> row.ending().isEmpty());
  }

  private void begin() {
    ZonedDateTime now = ZonedDateTime.now();
    VigilWish wish = form.wish();
    String missing = wish.missing(now);
    if (!missing.isEmpty() || watch.running()) {
      ctx.notices().note(missing.isEmpty() ? "A vigil is under way already." : missing + ".");
      return;
    }
    if (ctx.isBusy()) {
      return;
    }
    form.remember();
    long number = new SplittableRandom().nextLong(VigilOrder.LEAST_NUMBER, Long.MAX_VALUE);
    watch.begin(wish.order(number, now));
  }

  private void resume(VigilRow row) {
    if (ctx.isBusy()) {
      return;
    }
    Path job = ctx.visit().file();
    ctx.later(ctx.visit().ask(all -> order(job, row)), asked -> watch.resume(row, asked));
  }

  private static VigilOrder order(Path job, VigilRow row) throws JobFileException {
    try {
      return VigilRun.order(job, row);
    } catch (BadVigil e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  @Override
  public String key() {
    return "vigil";
  }

  @Override
  public String title() {
    return "Vigil";
  }

  @Override
  public JComponent component() {
    return parts;
  }

  @Override
  public void entered() {
    String last = ctx.left("vigil.shown");
    if (watch.running()) {
      show(WATCHING);
    } else if (last.equals(KEPT) && !rows.isEmpty()) {
      show(KEPT);
    }
  }

  @Override
  public JComponent focus() {
    return switch (parts.shown()) {
      case WATCHING -> watch.panel().focus();
      case KEPT -> kept.focus();
      default -> form.focus();
    };
  }

  @Override
  public void left() {
    ctx.left("vigil.shown", parts.shown());
    form.remember();
  }

  @Override
  public NextAction next() {
    if (watch.running()) {
      return NextAction.of(
          "Shake the cable, then mark it: Space", () -> watch.mark(VigilPrompts.SHOOK));
    }
    Optional<VigilRow> left = unfinished();
    if (left.isPresent()) {
      return NextAction.of("Go on with vigil " + left.get().id(), () -> resume(left.get()));
    }
    if (!watch.afterwards().isEmpty() && parts.shown().equals(KEPT)) {
      return NextAction.of(watch.afterwards(), this::heatAgain);
    }
    if (parts.shown().equals(KEPT)) {
      return NextAction.of("Go on: the checklist before you leave", () -> ctx.go("finish"));
    }
    VigilWish wish = form.wish();
    String missing = wish.missing(ZonedDateTime.now());
    return missing.isEmpty()
        ? NextAction.of(
            "Begin the vigil: " + VigilOrder.name(wish.kind()) + ", " + wish.length().strip(),
            this::begin)
        : NextAction.words(missing);
  }

  @Override
  public String state() {
    if (watch.running()) {
      return watch.state();
    }
    return unfinished().isPresent() ? "the board is alone" : count.words();
  }

  /** What becomes of the vigil that runs. */
  private final class Told implements VigilWatch.Told {
    @Override
    public void begun() {
      parts.offer(WATCHING, true);
      show(WATCHING);
      reload();
    }

    @Override
    public void changed() {
      ctx.changed(VigilPage.this);
    }

    @Override
    public void ended(long vigil) {
      parts.offer(WATCHING, false);
      show(KEPT);
      Path job = ctx.visit().file();
      ctx.later(
          ctx.visit().ask(all -> VigilCount.read(job)),
          now -> {
            take(now);
            kept.choose(vigil);
          });
    }

    @Override
    public void failed() {
      parts.offer(WATCHING, false);
      show(FORM);
      reload();
    }
  }
}
