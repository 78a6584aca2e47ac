package bellwire.app.survey;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.FarEndWatch;
import bellwire.analysis.survey.FarEndWatch.Sight;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Phase;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.TieRound;
import bellwire.analysis.survey.TieRun;
import bellwire.analysis.ties.Tie;
import bellwire.analysis.ties.TiePlan;
import bellwire.analysis.ties.TiePlans;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Takes a survey through the rounds of ties: tells the plan, sees each round arrive by itself,
 * measures who is joined to whom, and has a round made again that can't be the plan's.
 */
final class TieRounds {
  /** How long a round that is not all there must be still before it is measured as it is. */
  private static final long PATIENCE_MICROS = 30_000_000;

  /** After so long without a change a missing clip is asked about. */
  private static final long ASKING_MICROS = 8_000_000;

  private static final int ATTEMPTS = 3;

  /** What the rounds need of the survey. */
  interface Hands {
    Sight look(FarEndWatch watch) throws InstrumentTrouble, InterlockTripped;

    void perform(String title, Phase phase) throws InstrumentTrouble, InterlockTripped;

    void assureDead() throws InstrumentTrouble, InterlockTripped, VoltageFound;

    /** Device time of the last reading. */
    long micros();
  }

  private final Hands hands;
  private final OpenResult open;
  private final SurveyOptions options;
  private final TieChoice choice;
  private final SurveyListener listener;
  private final TieSight sight;

  /** Conductors that the last round measured joined, 0 before the first. */
  private int measured;

  TieRounds(
      Hands hands,
      BoardModel board,
      OpenResult open,
      SurveyOptions options,
      TieChoice choice,
      SurveyListener listener) {
    this.hands = hands;
    this.open = open;
    this.options = options;
    this.choice = choice;
    this.listener = listener;
    sight = new TieSight(hands, board, open, options, listener);
  }

  /** Null where there is nothing to tie. */
  @Nullable TieRun run() throws InstrumentTrouble, InterlockTripped, VoltageFound {
    TiePlan plan = plan();
    if (plan == null) {
      return null;
    }
    tell(plan);
    TieRun best = null;
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      List<TieRound> rounds = rounds(plan);
      if (best != null && rounds.size() < best.rounds().size()) {
        break;
      }
      best = TieRun.of(plan, open, rounds);
      boolean doubtful = !best.reading().explained() || best.reading().opens() > 1;
      if (!best.complete() || !doubtful || attempt + 1 == ATTEMPTS) {
        break;
      }
      listener.note(
          "what was joined is not the plan's: "
              + seenWords(plan, rounds)
              + ". Check the numbers and the clips, and make both rounds again, from round 1.");
    }
    listener.note(
        "done with the ties: take the clips off. Copper that was twisted: cut it back and strip it afresh before it is"
            + " landed.");
    return best;
  }

  private @Nullable TiePlan plan() {
    int found = open.conductors().size();
    if (choice.conductors() != 0 && choice.conductors() < found) {
      listener.note(
          found
              + " conductors are landed, not "
              + choice.conductors()
              + ": the plan is for "
              + found);
    }
    int n = Math.max(found, choice.conductors());
    if (n < 2) {
      return null;
    }
    if (n == 2) {
      if (open.metalClipped()) {
        return TiePlans.twoByMetal();
      }
      TieInstructions.two().forEach(listener::note);
      listener.note("M is not clipped: clip it to bare metal and start anew.");
      return null;
    }
    return choice.everyTied()
        ? TiePlans.everyTied(n).orElseGet(() -> TiePlans.fewest(n))
        : TiePlans.fewest(n);
  }

  private void tell(TiePlan plan) {
    listener.phase(
        "ties: " + plan.conductors() + " conductors, " + plan.ties() + " ties in two rounds");
    List<String> steps = TieInstructions.steps(plan);
    for (int k = 0; k < steps.size(); k++) {
      listener.note((k + 1) + ". " + steps.get(k));
    }
    TieInstructions.copper().forEach(listener::note);
  }

  /** Those that were made, in order. */
  private List<TieRound> rounds(TiePlan plan)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    List<TieRound> rounds = new ArrayList<>();
    while (rounds.size() < plan.rounds().size()) {
      TieRound round = round(plan, rounds);
      if (round == null) {
        listener.note(
            "went on without "
                + (rounds.isEmpty() ? "the ties" : "round " + (rounds.size() + 1))
                + ": if its clips were on, each of them holds a broken conductor, or two that touch");
        break;
      }
      rounds.add(round);
      listener.note("round " + rounds.size() + ": joined are " + sight.words(round));
    }
    return rounds;
  }

  /** Waits for a round to be made, and measures it; null where the time is up. */
  private @Nullable TieRound round(TiePlan plan, List<TieRound> before)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    int number = before.size() + 1;
    List<Tie> planned = plan.rounds().get(before.size());
    String what = "round " + number + ": clip " + TieInstructions.pairs(planned);
    long start = hands.micros();
    Stillness still = new Stillness(start);
    // What is on already must come off first: joined pairs alone do not tell the rounds apart.
    boolean off = measured == 0;
    int refused = 0;
    while (true) {
      Sight now = sight.look();
      int joined = sight.joined();
      still.see(now.kind() == null ? -1 : joined, hands.micros());
      off |= joined == 0 && now.kind() != null;
      refused = joined == refused ? refused : 0;
      boolean whole = Integer.bitCount(joined) >= ends(planned);
      boolean due = options.fixedMicros() > 0 && hands.micros() - start >= options.fixedMicros();
      boolean timed = options.fixedMicros() > 0;
      boolean settled =
          timed ? due : still.micros() >= (whole ? options.dwellMicros() : PATIENCE_MICROS);
      if (joined != 0 && refused == 0 && settled && now.kind() != null) {
        if (off) {
          TieRound round = sight.measure(number, joined);
          String objection = round == null ? "" : objection(round, planned);
          if (round != null && objection.isEmpty()) {
            measured = joined;
            return round;
          }
          if (round != null) {
            listener.note(objection);
            refused = joined;
          }
        } else if (Integer.bitCount(joined) > Integer.bitCount(measured) && !before.isEmpty()) {
          refused = late(plan, before, joined) ? 0 : joined;
        }
      }
      if (due || hands.micros() - start > options.waitMicros()) {
        return null;
      }
      boolean ask = !whole && still.micros() > ASKING_MICROS;
      listener.waiting(
          what,
          off ? seen(now, joined, planned, ask) : "take all clips off first",
          (start + options.waitMicros() - hands.micros()) / 1_000_000);
    }
  }

  /** A clip that was put on after its round had been measured; false where it is none of it. */
  private boolean late(TiePlan plan, List<TieRound> before, int joined)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    int last = before.size() - 1;
    TieRound round = sight.measure(before.size(), joined);
    if (round == null) {
      return true; // seen again
    }
    String objection = objection(round, plan.rounds().get(last));
    if (!objection.isEmpty()) {
      listener.note(objection);
      return false;
    }
    before.set(last, round);
    measured = joined;
    listener.note(
        "round "
            + before.size()
            + ", with a clip that came late: joined are "
            + sight.words(round));
    return true;
  }

  /** How long the same conductors have been joined. */
  private static final class Stillness {
    private int state = -1;
    private long since;
    private long now;

    Stillness(long start) {
      since = start;
      now = start;
    }

    /**
     * @param seen mask of what is joined, negative for what never counts as still
     */
    void see(int seen, long micros) {
      since = seen == state && seen >= 0 ? since : micros;
      state = seen;
      now = micros;
    }

    long micros() {
      return now - since;
    }
  }

  private static String seen(Sight sight, int joined, List<Tie> planned, boolean ask) {
    if (sight.kind() == null) {
      return sight.words();
    }
    return joined == 0
        ? "nothing joined"
        : Integer.bitCount(joined)
            + " of "
            + ends(planned)
            + " ends joined"
            + (ask ? ": one clip off?" : "");
  }

  private static int ends(List<Tie> ties) {
    return ties.stream().mapToInt(t -> t.b() == Tie.METAL ? 1 : 2).sum();
  }

  /** Why a round can't be the planned one whatever is wrong with the cable; empty if it can. */
  private String objection(TieRound round, List<Tie> planned) {
    int ties = 0;
    for (List<Integer> group : round.joined()) {
      long inShorts = group.stream().filter(p -> !sight.touching(p).isEmpty()).count();
      if (group.size() > 2 && group.size() > 2 * inShorts) {
        return Ports.names(group)
            + " are joined: planned are two to a clip. Make this round again.";
      }
      ties += inShorts == 0 ? 1 : 0;
    }
    return ties > planned.size()
        ? ties + " pairs are joined, planned are " + planned.size() + ". Make this round again."
        : "";
  }

  private String seenWords(TiePlan plan, List<TieRound> rounds) {
    StringBuilder words = new StringBuilder();
    for (int r = 0; r < rounds.size(); r++) {
      words
          .append(r == 0 ? "" : "; ")
          .append("in round ")
          .append(r + 1)
          .append(' ')
          .append(sight.words(rounds.get(r)))
          .append(" in place of ")
          .append(plan.rounds().get(r).size())
          .append(plan.rounds().get(r).size() == 1 ? " pair" : " pairs");
    }
    return words.toString();
  }
}
