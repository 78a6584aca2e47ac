package bellwire.app.survey;

import bellwire.analysis.attached.AttachedPhase;
import bellwire.analysis.attached.AttachedVerdicts;
import bellwire.analysis.attached.Attachment;
import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.FarEndWatch;
import bellwire.analysis.survey.FarEndWatch.Sight;
import bellwire.analysis.survey.Foreign;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.RestedPhase;
import bellwire.analysis.survey.Rests;
import bellwire.analysis.survey.StarPhase;
import bellwire.analysis.survey.StarResult;
import bellwire.analysis.survey.SurveyAnalysis;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.TieRun;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Takes a survey through its phases by itself: interlock, open cable, and each plug as it is seen
 * to arrive.
 */
public final class SurveyRun {
  private static final int RESTARTS = 5;

  private final Instrument instrument;
  private final Measuring measuring;
  private final BoardModel board;
  private final SurveyOptions options;
  private final SurveyListener listener;
  private final List<StarResult> ties = new ArrayList<>();
  private @Nullable StarResult coded;
  private @Nullable OpenResult open;
  private List<Attachment> attached = List.of();
  private boolean inPlace;

  public SurveyRun(
      Instrument instrument, BoardModel board, SurveyOptions options, SurveyListener listener) {
    this.instrument = instrument;
    this.board = board;
    this.options = options;
    this.listener = listener;
    measuring = new Measuring(instrument, board, listener);
  }

  /**
   * With the conductors landed at the equipment, which is off: what joins most of them is no plug
   * that was left on.
   */
  public SurveyRun inPlace() {
    inPlace = true;
    return this;
  }

  /**
   * Runs to the end.
   *
   * @throws Cancelled when the person stopped it
   */
  public SurveyOutcome run() throws InstrumentTrouble {
    Instrument.Identity identity = instrument.open();
    try {
      measuring.assureDead();
      String refused = instrument.arm();
      if (!refused.isEmpty()) {
        measuring.assureDead(true);
        throw new InstrumentTrouble("the board refuses to be armed: " + refused);
      }
      listener.note(
          "interlock clear: the board sees no voltage. Only your meter proves the cable dead.");
      return measure(identity);
    } catch (VoltageFound voltage) {
      return stopped(identity, voltage.foreign(), 0);
    } catch (InterlockTripped trip) {
      listener.note("INTERLOCK TRIPPED: relays open, nothing driven");
      try {
        measuring.assureDead(true);
        return stopped(identity, null, trip.flags());
      } catch (VoltageFound voltage) {
        return stopped(identity, voltage.foreign(), trip.flags());
      } catch (InterlockTripped again) {
        return stopped(identity, null, again.flags());
      }
    }
  }

  private SurveyOutcome measure(Instrument.Identity identity)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    OpenCable phase = new OpenCable(instrument, measuring, board, options, listener, inPlace);
    OpenResult cable = phase.measured();
    open = cable;
    attachedPhase(cable, phase);
    TieChoice choice = options.ties();
    TieRun tieRun =
        choice == null
            ? null
            : new TieRounds(measuring, board, cable, options, choice, listener).run();
    Set<FarEndKind> wanted = EnumSet.noneOf(FarEndKind.class);
    if (cable.conductors().size() > 1) {
      wanted.addAll(options.plugs());
    }
    FarEndWatch watch = new FarEndWatch(board, cable, options.dwellMicros());
    int failures = 0;
    while (!wanted.isEmpty()) {
      Sight sight = waitFor(watch, wanted, options.waitMicros(), "put on the " + words(wanted));
      if (sight == null || sight.kind() == null) {
        listener.note("went on without the " + words(wanted));
        break;
      }
      FarEndKind kind = sight.kind();
      StarResult star = plugPhase(cable, watch, kind);
      if (star != null) {
        keep(kind, star);
        wanted.remove(kind);
      } else if (++failures >= RESTARTS) {
        listener.note("the far end never stayed the same: went on without the " + words(wanted));
        break;
      }
    }
    SurveyAnalysis analysis =
        new SurveyAnalysis(board, options.criteria(), options.plug(), options.facts());
    if (!ties.isEmpty() && options.reseatMicros() > 0) {
      reseat(cable, watch, analysis.suspectContacts(cable, ties.get(0)));
    }
    SurveyResult result =
        new AttachedVerdicts(cable, attached).in(analysis.result(cable, coded, ties));
    return new SurveyOutcome(
        identity,
        tieRun == null ? result : analysis.withTies(result, cable, tieRun),
        cable,
        coded,
        List.copyOf(ties),
        attached,
        inPlace,
        null,
        0,
        measuring.times());
  }

  /** What joins ports, and what the open phase could not explain: copper, or something attached. */
  private void attachedPhase(OpenResult cable, OpenCable seen)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    AttachedPhase phase = new AttachedPhase(board, cable, seen.slow(), seen.windings());
    if (!phase.idle()) {
      measuring.perform("what joins them: coil, capacitor, diode or copper", phase);
      measuring.assureDead();
    }
    attached = phase.found();
    int loads = 0;
    for (Attachment attachment : attached) {
      if (attachment.load()) {
        loads |= Ports.bit(attachment.a()) | Ports.bit(attachment.b());
        loads |= Ports.mask(cable.touching(attachment.a()));
        loads |= Ports.mask(cable.touching(attachment.b()));
      }
    }
    measuring.rest(new Rests(loads));
  }

  private void keep(FarEndKind kind, StarResult star) {
    if (kind == FarEndKind.TIE) {
      ties.add(star);
    } else {
      coded = star;
    }
  }

  private @Nullable Sight waitFor(
      FarEndWatch watch, Set<FarEndKind> wanted, long limitMicros, String what)
      throws InstrumentTrouble, InterlockTripped {
    long start = measuring.micros();
    while (true) {
      Sight sight = measuring.look(watch);
      long waited = measuring.micros() - start;
      boolean due = options.fixedMicros() > 0 && waited >= options.fixedMicros();
      boolean right = sight.kind() != null && wanted.contains(sight.kind());
      if (right && (sight.settled() && options.fixedMicros() == 0 || due)) {
        listener.note(sight.words() + (sight.settled() ? ", settled" : ""));
        return sight;
      }
      if (due || waited > limitMicros) {
        return null;
      }
      long end = options.fixedMicros() > 0 ? options.fixedMicros() : limitMicros;
      listener.waiting(what, sight.words(), (end - waited) / 1_000_000);
    }
  }

  private @Nullable StarResult plugPhase(OpenResult cable, FarEndWatch watch, FarEndKind kind)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    measuring.assureDead();
    for (int attempt = 0; attempt < RESTARTS; attempt++) {
      Sight before = measuring.look(watch);
      if (before.kind() != kind) {
        return null;
      }
      double[] ohms = watch.lastOhms();
      StarPhase phase = new StarPhase(board, before.connected(), cable, ohms, inPlace);
      measuring.perform(
          kind == FarEndKind.TIE ? "tie plug: resistances" : "coded plug: which is which",
          new RestedPhase(phase, measuring.rests()));
      measuring.look(watch);
      measuring.assureDead();
      boolean whole = phase.lost() == 0 || attempt > 0;
      if (whole && watch.unchangedSince(ohms)) {
        return StarResult.of(board, cable, before.connected(), phase);
      }
      listener.note(
          whole
              ? "the far end changed during the measurement: measured again"
              : "something disturbed a reading: measured again");
    }
    return null;
  }

  private void reseat(OpenResult cable, FarEndWatch watch, Set<Integer> suspects)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    if (suspects.isEmpty()) {
      return;
    }
    String ports = Ports.names(List.copyOf(suspects));
    listener.note(
        ports
            + (suspects.size() == 1 ? " stands out." : " stand out.")
            + " Before a joint is blamed: take the tie plug off, seat the "
            + (suspects.size() == 1 ? "clamp at " : "clamps at ")
            + ports
            + " afresh, put the plug on again.");
    long start = measuring.micros();
    double[] seated = watch.lastOhms();
    while (watch.unchangedSince(seated)) {
      Sight sight = measuring.look(watch);
      if (measuring.micros() - start > options.reseatMicros()) {
        listener.note("not seated afresh: whether it is a contact or a joint stays open");
        return;
      }
      listener.waiting(
          "seat " + ports + " afresh",
          sight.words(),
          (options.reseatMicros() - measuring.micros() + start) / 1_000_000);
    }
    Sight again =
        waitFor(
            watch, EnumSet.of(FarEndKind.TIE), options.reseatMicros(), "put the tie plug on again");
    StarResult star = again == null ? null : plugPhase(cable, watch, FarEndKind.TIE);
    if (star != null) {
      ties.add(star);
    }
  }

  private SurveyOutcome stopped(
      Instrument.Identity identity, @Nullable Foreign foreign, int flags) {
    return new SurveyOutcome(
        identity,
        null,
        open,
        coded,
        List.copyOf(ties),
        attached,
        inPlace,
        foreign,
        flags,
        measuring.times());
  }

  private static String words(Set<FarEndKind> wanted) {
    return wanted.contains(FarEndKind.CODED) && wanted.contains(FarEndKind.TIE)
        ? "coded plug (or the tie plug)"
        : wanted.contains(FarEndKind.CODED) ? "coded plug" : "tie plug";
  }
}
