package bellwire.app.vigil;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.TrendPlan;
import bellwire.app.job.Watched;
import bellwire.app.survey.ScanTranslation;
import bellwire.link.Message.KeepVigil;
import bellwire.link.Message.KeepVigil.Kind;
import bellwire.link.ScanStep;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * What a person asked to have watched.
 *
 * @param number by which the agent knows the vigil; drawn at random, {@link #LEAST_NUMBER} or more
 * @param kind of the vigil
 * @param ports with a conductor, bit 0 for P1; of calls the leads, bit 0 for X1
 * @param names of conductors or leads, by number from 0, where they have one
 * @param returned continuity: the port that the others' current comes back through; else 0
 * @param wetting calls: dry contacts, fed with 5 V
 * @param loads calls: leads with their dummy load on
 * @param lengthMicros after which it ends by itself
 * @param shortestOpeningMicros continuity: that this cable lets through; NaN where not known
 * @param expectedOhms trend: of a conductor and what is on its far end, about; else 0
 * @param mainsHertz 50 or 60
 * @param note in words, such as who is in the building; may be empty
 */
public record VigilOrder(
    long number,
    Kind kind,
    int ports,
    Map<Integer, String> names,
    int returned,
    boolean wetting,
    int loads,
    long lengthMicros,
    double shortestOpeningMicros,
    double expectedOhms,
    int mainsHertz,
    String note) {

  /** Above the numbers of programs and watches, so that none passes for a vigil. */
  public static final long LEAST_NUMBER = 1L << 32;

  public VigilOrder {
    if (number < LEAST_NUMBER) {
      throw new IllegalArgumentException("number=" + number);
    }
    names = Map.copyOf(names);
  }

  /** The same for another length of time, and with a note. */
  public VigilOrder lasting(long micros, String words) {
    return new VigilOrder(
        number,
        kind,
        ports,
        names,
        returned,
        wetting,
        loads,
        micros,
        shortestOpeningMicros,
        expectedOhms,
        mainsHertz,
        words);
  }

  /** The program's name, as typed and as stored. */
  public static String name(Kind kind) {
    return kind.name().toLowerCase(Locale.ROOT);
  }

  /** As the agent is asked, for a length of time. */
  KeepVigil asked(BoardModel board, long micros) {
    return new KeepVigil(0, number, kind, ports, returned, wetting, loads, micros, steps(board));
  }

  private List<ScanStep> steps(BoardModel board) {
    if (kind != Kind.TREND) {
      return List.of();
    }
    ScanTranslation translation = new ScanTranslation(mainsHertz);
    return new TrendPlan(board, ports, expectedOhms)
        .probes().stream().map(translation::step).toList();
  }

  /** As the job file keeps it. */
  Watched watched(String revision) {
    return new Watched(
        number,
        name(kind),
        ports,
        returned,
        wetting,
        loads,
        lengthMicros,
        revision,
        note,
        shortestOpeningMicros,
        expectedOhms,
        mainsHertz,
        names);
  }

  /** As it was kept. */
  static VigilOrder of(Watched watched) {
    return new VigilOrder(
        watched.vigil(),
        Kind.valueOf(watched.program().toUpperCase(Locale.ROOT)),
        watched.ports(),
        watched.names(),
        watched.returned(),
        watched.wetting(),
        watched.loads(),
        watched.lengthMicros(),
        watched.shortestOpeningMicros(),
        watched.expectedOhms(),
        watched.mainsHertz(),
        watched.note());
  }

  /** A conductor's or lead's name for people, such as 'P3 red' or 'X2 W'. */
  public String called(int number) {
    String port = kind == Kind.CALLS ? "X" + (number + 1) : Ports.name(number);
    String name = names.getOrDefault(number, "");
    return name.isEmpty() ? port : port + " " + name;
  }

  /** Whether the building is without its heating or cooling meanwhile. */
  public boolean deEnergised() {
    return kind != Kind.CALLS;
  }
}
