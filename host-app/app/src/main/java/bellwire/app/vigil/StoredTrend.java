package bellwire.app.vigil;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Reading;
import bellwire.analysis.survey.TrendPlan;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.analysis.vigil.TrendSeries;
import bellwire.analysis.vigil.Unwatched;
import bellwire.app.job.Gap;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Overview.Unreadable;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilReader;
import bellwire.app.job.Watched;
import bellwire.app.survey.BoardModels;
import bellwire.app.vigil.StoredVigil.Part;
import bellwire.board.BoardDescription;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/** A trend's converter codes, a stream for each step of its round, made into resistances. */
final class StoredTrend {
  static final String STREAM = "step-";

  /** The greatest code and the least stand for readings that left their range, up or down. */
  private static final int OVER = (1 << 23) - 1;

  private static final int UNDER = -1 << 23;

  private static final String DISTURBED = "a voltage from outside was on the cable";
  private static final String UNSTEADY =
      " opened while it was measured, or a voltage from outside came";
  private static final int MOST_ROUNDS = 2_000_000;
  private static final int FIRST_ROOM = 1024;

  /** Enough that most are of rounds that were not broken off. */
  private static final int TURNS = 31;

  /** One step's codes, by time. */
  private static final class Codes {
    long[] micros = new long[FIRST_ROOM];
    int[] code = new int[FIRST_ROOM];
    int count;

    void add(long at, int value) {
      if (count == MOST_ROUNDS) {
        return;
      }
      if (count == micros.length) {
        micros = Arrays.copyOf(micros, 2 * count);
        code = Arrays.copyOf(code, 2 * count);
      }
      micros[count] = at;
      code[count++] = value;
    }
  }

  private final VigilReader reader;
  private final BoardModel board = BoardModels.of(BoardDescription.revisionA());
  private final TrendPlan plan;
  private final List<Probe> probes;

  /** Whose times the rounds have. */
  private int fullest;

  private final List<Unwatched> nothing = new ArrayList<>();
  private long firstMicros = Long.MAX_VALUE;
  private long lastMicros = Long.MIN_VALUE;

  StoredTrend(VigilReader reader, Watched watched) {
    this.reader = reader;
    plan = new TrendPlan(board, watched.ports(), watched.expectedOhms());
    probes = plan.probes();
  }

  long firstMicros() {
    return firstMicros;
  }

  long lastMicros() {
    return lastMicros;
  }

  /** Rounds that were measured and show nothing. */
  List<Unwatched> nothing() {
    return nothing;
  }

  /** A series a conductor, of two conductors one of both; none before the first round. */
  List<TrendSeries> series(Part part, Consumer<Unwatched> unwatched) throws JobFileException {
    List<Stream> streams = new ArrayList<>();
    for (int step = 0; step < probes.size(); step++) {
      String name = STREAM + step;
      reader.streams().stream().filter(s -> s.name().equals(name)).forEach(streams::add);
    }
    if (streams.size() < probes.size()) {
      return List.of();
    }
    long[] rounds = rounds(streams, part, unwatched);
    List<TrendSeries> all = new ArrayList<>();
    boolean[] cut = new boolean[rounds.length];
    String[] reasons = new String[rounds.length];
    Arrays.fill(reasons, "");
    for (int reading = 0; reading < plan.readings(); reading++) {
      all.add(one(reading, streams, rounds, cut, reasons, part));
    }
    tell(rounds, reasons, streams.get(fullest).periodMicros());
    nothing.forEach(unwatched);
    return CutRounds.without(all, cut);
  }

  /** Those one after the other for the same reason as one. */
  private void tell(long[] rounds, String[] reasons, long period) {
    int first = 0;
    for (int r = 1; r <= rounds.length; r++) {
      String reason = reasons[first];
      if (r < rounds.length && reasons[r].equals(reason)) {
        continue;
      }
      if (!reason.isEmpty()) {
        nothing.add(new Unwatched(rounds[first], rounds[r - 1] + period, reason, true));
      }
      first = r;
    }
  }

  /** When each round was, by the step that was read most often. */
  private long[] rounds(List<Stream> streams, Part part, Consumer<Unwatched> unwatched)
      throws JobFileException {
    Codes most = new Codes();
    for (int step = 0; step < streams.size(); step++) {
      Codes codes = codes(streams.get(step), part, unwatched);
      if (codes.count > most.count) {
        most = codes;
        fullest = step;
      }
    }
    long[] rounds = Arrays.copyOf(most.micros, most.count);
    if (rounds.length > 0) {
      firstMicros = rounds[0];
      lastMicros = rounds[rounds.length - 1];
      for (Gap gap : reader.gaps(streams.get(fullest), firstMicros, lastMicros)) {
        unwatched.accept(new Unwatched(gap.fromMicros(), gap.toMicros(), gap.reason()));
      }
    }
    return rounds;
  }

  static Reading reading(Probe probe, int code, long micros, double converterVolts) {
    boolean overloaded = code == OVER || code == UNDER;
    return Reading.ofCodes(
        probe, new int[] {code}, new long[] {micros}, converterVolts, overloaded);
  }

  /** What is stored of a reading that left its range. */
  static int overloaded(int code) {
    return code < 0 ? UNDER : OVER;
  }

  private Codes codes(Stream stream, Part part, Consumer<Unwatched> unwatched)
      throws JobFileException {
    Codes codes = new Codes();
    long from = Math.max(part.fromMicros(), reader.row().startedMicros());
    long to = Math.min(part.toMicros(), from + bellwire.link.Message.KeepVigil.MOST_MICROS);
    for (Unreadable each :
        reader.samples(stream, from, to, (at, count, value, latches) -> codes.add(at, value))) {
      unwatched.accept(new Unwatched(each.firstMicros(), each.lastMicros(), each.reason()));
    }
    return codes;
  }

  /**
   * @param cut set where one of a round's readings was not made, or shows nothing
   * @param reasons in words, where it shows nothing
   */
  private TrendSeries one(
      int reading, List<Stream> streams, long[] rounds, boolean[] cut, String[] reasons, Part part)
      throws JobFileException {
    int first = reading * TrendPlan.READINGS_EACH;
    Codes[] four = new Codes[TrendPlan.READINGS_EACH];
    for (int i = 0; i < four.length; i++) {
      four[i] = codes(streams.get(first + i), part, gap -> {});
    }
    double[] ohms = new double[rounds.length];
    double u = Double.NaN;
    int[] next = new int[four.length];
    long period = streams.get(0).periodMicros();
    long behindMicros = behind(first, four[0], rounds, period);
    for (int r = 0; r < rounds.length; r++) {
      List<Reading> readings = read(first, four, next, rounds[r] + behindMicros, period);
      boolean all = readings.size() == four.length;
      if (all && reasons[r].isEmpty()) {
        reasons[r] =
            switch (plan.shown(readings)) {
              case RESISTANCE, NONE -> "";
              case UNSTEADY -> "P" + (plan.port(reading) + 1) + UNSTEADY;
              case DISTURBED -> DISTURBED;
            };
      }
      cut[r] |= !all || !reasons[r].isEmpty();
      Optional<Quantity> value = all ? plan.ohms(readings) : Optional.empty();
      ohms[r] = value.map(Quantity::value).orElse(Double.NaN);
      u = value.map(Quantity::u).orElse(u);
    }
    return new TrendSeries(plan.port(reading), rounds, ohms, u > 0 ? u : 1);
  }

  /**
   * How long after the step whose times the rounds have another one's turn comes, in the same
   * round. Of many, for some rounds were broken off.
   */
  private long behind(int step, Codes codes, long[] rounds, long period) {
    long[] micros = new long[TURNS];
    int found = 0;
    for (int i = 0; i < codes.count && found < TURNS; i++) {
      int at = Arrays.binarySearch(rounds, codes.micros[i]);
      int before = at >= 0 ? at : -at - 2;
      if (before >= 0 && codes.micros[i] - rounds[before] < period) {
        micros[found++] = codes.micros[i] - rounds[before];
      }
    }
    if (found == 0) {
      return 0;
    }
    Arrays.sort(micros, 0, found);
    return micros[found / 2] - (step < fullest ? period : 0);
  }

  /**
   * The four that belong to a round, as far as they were made.
   *
   * @param micros when the first of them is due
   */
  private List<Reading> read(int first, Codes[] four, int[] next, long micros, long period) {
    List<Reading> readings = new ArrayList<>();
    long from = micros - period / 2;
    long to = micros + period / 2;
    for (int i = 0; i < four.length; i++) {
      Codes codes = four[i];
      while (next[i] < codes.count && codes.micros[next[i]] < from) {
        next[i]++;
      }
      if (next[i] == codes.count || codes.micros[next[i]] >= to) {
        return readings;
      }
      long at = codes.micros[next[i]];
      readings.add(reading(probes.get(first + i), codes.code[next[i]], at, board.converterVolts()));
      from = at; // the others follow the first at once
      to = at + period / 2;
    }
    return readings;
  }
}
