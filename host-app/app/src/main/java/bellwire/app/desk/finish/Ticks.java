package bellwire.app.desk.finish;

import bellwire.app.desk.DeskContext;
import bellwire.app.job.Checklist;
import bellwire.app.job.Fact;
import bellwire.app.job.Tick;
import bellwire.app.visit.Change;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The checklist as it stands in the job; every change is an edit that can be taken back. */
final class Ticks {
  private record Read(List<Tick> ticks, String technician) {}

  private final DeskContext ctx;
  private final Clock clock;
  private final Runnable changed;
  private final Map<String, Tick> ticks = new HashMap<>();
  private String technician = "";

  Ticks(DeskContext ctx, Clock clock, Runnable changed) {
    this.ctx = ctx;
    this.clock = clock;
    this.changed = changed;
    ctx.onChange(
        change -> {
          if (change == Change.TICKS || change == Change.FACTS) {
            load();
          }
        });
    load();
  }

  private void load() {
    ctx.later(
        ctx.visit().ask(all -> new Read(all.ticks(), all.fact(Fact.TECHNICIAN))),
        read -> {
          technician = read.technician;
          ticks.clear();
          read.ticks.forEach(tick -> ticks.put(tick.item(), tick));
          changed.run();
        });
  }

  /** Open, where nobody touched it. */
  Tick of(Checklist.Item item) {
    Tick tick = ticks.get(item.key());
    return tick != null
        ? tick
        : new Tick(item.key(), Tick.State.OPEN, Tick.Basis.WITNESSED, "", 0, "");
  }

  String technician() {
    return technician;
  }

  Optional<Checklist.Item> firstOpen() {
    return Checklist.items().stream()
        .filter(item -> of(item).state() == Tick.State.OPEN)
        .findFirst();
  }

  /** Items that are no longer open. */
  long settled() {
    return Checklist.items().stream().filter(item -> of(item).state() != Tick.State.OPEN).count();
  }

  long notDone() {
    return Checklist.items().stream()
        .filter(item -> of(item).state() == Tick.State.NOT_DONE)
        .count();
  }

  /** When the checklist was touched last. */
  Instant last() {
    long micros = ticks.values().stream().mapToLong(Tick::atUnixMicros).max().orElse(0);
    return Instant.EPOCH.plus(micros, ChronoUnit.MICROS);
  }

  /** Keeps how an item stands now, signed by the technician where nobody else is named. */
  void put(Checklist.Item item, Tick.State state, Tick.Basis basis, String by, String note) {
    String signed = by.isBlank() && state != Tick.State.OPEN ? technician : by;
    long now = ChronoUnit.MICROS.between(Instant.EPOCH, clock.instant());
    Tick before = of(item);
    Tick after = new Tick(item.key(), state, basis, signed.strip(), now, note.strip());
    if (same(before, after)) {
      return;
    }
    keep(after);
    ctx.undo().did("finish", item.words() + " changed", () -> keep(before), () -> keep(after));
  }

  private static boolean same(Tick a, Tick b) {
    return a.state() == b.state()
        && a.basis() == b.basis()
        && a.by().equals(b.by())
        && a.note().equals(b.note());
  }

  private void keep(Tick tick) {
    ticks.put(tick.item(), tick);
    changed.run();
    ctx.later(
        ctx.visit()
            .change(
                Change.TICKS,
                all -> {
                  all.put(tick);
                  return tick;
                }),
        done -> {});
  }
}
