package bellwire.app.desk.survey;

import bellwire.app.desk.DeskContext;
import bellwire.app.job.CableRow;
import bellwire.app.job.ConductorRow;
import bellwire.app.visit.Change;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The cable and the survey in view. Each edit goes into the job at once and can be taken back. Used
 * on the event thread.
 */
final class SurveyState {
  static final String PAGE = "survey";

  private final DeskContext ctx;
  private final List<Runnable> listeners = new ArrayList<>();
  private final SurveysRead surveysRead = new SurveysRead();
  private Snapshot now = Snapshot.EMPTY;
  private long wanted;
  private long survey;
  private String key = "";
  private boolean making;
  private Runnable whenMade = () -> {};

  SurveyState(DeskContext ctx) {
    this.ctx = ctx;
    wanted = number(ctx.left("survey.cable"));
    survey = number(ctx.left("survey.survey"));
    key = ctx.left("survey.key");
    ctx.onChange(this::changed);
  }

  private static long number(String text) {
    return text.matches("\\d{1,18}") ? Long.parseLong(text) : 0;
  }

  void listen(Runnable listener) {
    listeners.add(listener);
  }

  Snapshot now() {
    return now;
  }

  /** The survey in view; empty where a new one is being prepared. */
  Optional<Seen> seen() {
    return now.surveys().stream().filter(s -> s.row().id() == survey).findFirst();
  }

  /** Key of the spot in view, such as 'conductor:P3'; empty for none. */
  String key() {
    return key;
  }

  void load() {
    long of = wanted;
    ctx.later(
        ctx.visit().ask(job -> Snapshot.read(job, of, surveysRead)),
        read -> {
          if (!making && of == wanted) {
            now = read;
            tell();
          }
        });
  }

  private void changed(Change change) {
    switch (change) {
      case FACTS, ACTS, CABLES, SURVEYS, REHEARSALS, TICKS -> load();
      default -> {}
    }
  }

  /** Another cable; 0 of a new one. */
  void cable(long id) {
    wanted = id;
    survey = 0;
    ctx.left("survey.cable", Long.toString(id));
    load();
  }

  /** Another survey; 0 prepares a new one. */
  void survey(long id) {
    survey = id;
    key = "";
    ctx.left("survey.survey", Long.toString(id));
    tell();
  }

  void key(String spot) {
    key = spot;
    ctx.left("survey.key", spot);
    tell();
  }

  /** Puts a cable into the job, and comes back with its key. */
  void edit(String words, CableRow after) {
    CableRow before = now.cable();
    if (before.equals(after)) {
      return;
    }
    if (before.id() != 0) {
      ctx.undo().did(PAGE, words, () -> put(before), () -> put(after));
    }
    put(after);
  }

  private void put(CableRow row) {
    now =
        new Snapshot(
            now.cables(),
            row,
            now.conductors(),
            now.surveys(),
            now.acts(),
            now.worked(),
            now.mainsHertz());
    tell();
    if (row.id() != 0) {
      ctx.later(ctx.visit().change(Change.CABLES, job -> job.put(row)), id -> {});
    } else if (!making) {
      making = true;
      ctx.later(ctx.visit().change(Change.CABLES, job -> job.put(row)), this::made);
    }
  }

  /** A new cable has its key; what was typed meanwhile follows. */
  private void made(long id) {
    making = false;
    Runnable then = whenMade;
    whenMade = () -> {};
    CableRow r = now.cable();
    wanted = id;
    ctx.left("survey.cable", Long.toString(id));
    put(
        new CableRow(
            id,
            r.name(),
            r.gauge(),
            r.metres(),
            r.celsius(),
            r.nearPlace(),
            r.farPlace(),
            r.note()));
    then.run();
  }

  /** Once a new cable has its key. */
  void whenMade(Runnable run) {
    whenMade = run;
  }

  /** Puts a conductor's colours into the job; without any it is taken out. */
  void edit(ConductorRow after) {
    ConductorRow before = now.conductors().get(after.port());
    if (after.equals(before)) {
      return;
    }
    ConductorRow was = before != null ? before : blank(after.cable(), after.port());
    String words = "colours of P" + (after.port() + 1);
    ctx.undo().did(PAGE, words, () -> put(was), () -> put(after));
    put(after);
  }

  static ConductorRow blank(long cable, int port) {
    return new ConductorRow(cable, port, "", "", "");
  }

  private void put(ConductorRow row) {
    Map<Integer, ConductorRow> all = new HashMap<>(now.conductors());
    boolean empty = (row.nearColour() + row.farColour() + row.note()).isBlank();
    if (empty) {
      all.remove(row.port());
    } else {
      all.put(row.port(), row);
    }
    now =
        new Snapshot(
            now.cables(),
            now.cable(),
            Map.copyOf(all),
            now.surveys(),
            now.acts(),
            now.worked(),
            now.mainsHertz());
    tell();
    ctx.later(
        ctx.visit()
            .change(
                Change.CABLES,
                job -> {
                  if (empty) {
                    job.removeConductor(row.cable(), row.port());
                  } else {
                    job.put(row);
                  }
                  return row;
                }),
        done -> {});
  }

  private void tell() {
    List.copyOf(listeners).forEach(Runnable::run);
  }

  /** The survey in place before the one in view, to compare with; null where there is none. */
  @Nullable Seen earlierInPlace() {
    Seen last = seen().orElse(null);
    if (last == null || !last.row().inPlace()) {
      return null;
    }
    for (Seen one : now.surveys()) {
      if (one.row().id() == last.row().id()) {
        return null;
      }
      if (one.row().inPlace() && one.sheet() != null && !one.sheet().stopped()) {
        return one;
      }
    }
    return null;
  }
}
