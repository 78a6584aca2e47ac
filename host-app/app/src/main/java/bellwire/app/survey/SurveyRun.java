package bellwire.app.survey;

import bellwire.analysis.attached.AttachedPhase;
import bellwire.analysis.attached.AttachedVerdicts;
import bellwire.analysis.attached.Attachment;
import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.FarEndWatch;
import bellwire.analysis.survey.FarEndWatch.Sight;
import bellwire.analysis.survey.Foreign;
import bellwire.analysis.survey.ForeignCheck;
import bellwire.analysis.survey.OpenPhase;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Phase;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.RestedPhase;
import bellwire.analysis.survey.Rests;
import bellwire.analysis.survey.StarPhase;
import bellwire.analysis.survey.StarResult;
import bellwire.analysis.survey.SurveyAnalysis;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.TieRun;
import bellwire.analysis.survey.WindingPhase;
import bellwire.app.survey.Instrument.Measured;
import bellwire.app.survey.SurveyOutcome.PhaseTime;
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

  /** Trips of one survey that may be taken for a coil's kick. */
  private static final int MOST_KICKS = 3;

  private static final double JOINED_OHMS = 3000;
  private static final int ALL_PORTS = (1 << Ports.COUNT) - 1;

  private final Instrument instrument;
  private final BoardModel board;
  private final SurveyOptions options;
  private final SurveyListener listener;
  private final List<StarResult> ties = new ArrayList<>();
  private final List<PhaseTime> times = new ArrayList<>();
  private @Nullable StarResult coded;
  private @Nullable OpenResult open;
  private List<Attachment> attached = List.of();
  private Rests rests = new Rests(0);
  private boolean inPlace;
  private int slow;
  private int windings;
  private int kicks;
  private long deviceMicros;

  public SurveyRun(
      Instrument instrument, BoardModel board, SurveyOptions options, SurveyListener listener) {
    this.instrument = instrument;
    this.board = board;
    this.options = options;
    this.listener = listener;
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
      assureDead();
      String refused = instrument.arm();
      if (!refused.isEmpty()) {
        assureDead(true);
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
        assureDead(true);
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
    OpenResult cable = openPhase();
    open = cable;
    attachedPhase(cable);
    TieChoice choice = options.ties();
    TieRun tieRun =
        choice == null
            ? null
            : new TieRounds(hands(), board, cable, options, choice, listener).run();
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
        List.copyOf(times));
  }

  private TieRounds.Hands hands() {
    return new TieRounds.Hands() {
      @Override
      public Sight look(FarEndWatch watch) throws InstrumentTrouble, InterlockTripped {
        return SurveyRun.this.look(watch);
      }

      @Override
      public void perform(String title, Phase phase) throws InstrumentTrouble, InterlockTripped {
        SurveyRun.this.perform(title, phase);
      }

      @Override
      public void assureDead() throws InstrumentTrouble, InterlockTripped, VoltageFound {
        SurveyRun.this.assureDead();
      }

      @Override
      public long micros() {
        return deviceMicros;
      }
    };
  }

  /** What joins ports, and what the open phase could not explain: copper, or something attached. */
  private void attachedPhase(OpenResult cable)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    AttachedPhase phase = new AttachedPhase(board, cable, slow, windings);
    if (!phase.idle()) {
      perform("what joins them: coil, capacitor, diode or copper", phase);
      assureDead();
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
    rests = new Rests(loads);
  }

  private void keep(FarEndKind kind, StarResult star) {
    if (kind == FarEndKind.TIE) {
      ties.add(star);
    } else {
      coded = star;
    }
  }

  /** The open phase, again from its start if the far end changed meanwhile. */
  private OpenResult openPhase() throws InstrumentTrouble, InterlockTripped, VoltageFound {
    for (int attempt = 0; ; attempt++) {
      OpenPhase phase = openCable(attempt == 0);
      assureDead();
      OpenResult result = phase.result();
      slow = phase.slow();
      windings = phase.windings();
      rests = new Rests(phase.restless());
      FarEndWatch watch = new FarEndWatch(board, result, 0);
      Sight after = look(watch);
      boolean still = after.kind() == FarEndKind.OPEN;
      if (still && attempt < RESTARTS && gone(watch)) {
        listener.note("what was on the far end came off during the measurement: measured again");
        continue;
      }
      if (still && (inPlace || !somethingIsOn(result))) {
        return result;
      }
      listener.note(
          still
              ? "most conductors are joined: take the plug off the far end, lift what is landed there"
              : "the far end changed during the measurement ("
                  + after.words()
                  + "): take it off again");
      boolean changed = waitForOpen(watch, still);
      if (still && !changed) {
        listener.note("went on: what is joined counts as a fault of the cable");
        return result;
      }
      if (attempt >= RESTARTS) {
        throw new InstrumentTrouble(
            "the far end did not stay still through any of "
                + (attempt + 1)
                + " measurements: hands off until the open cable is measured. A small voltage on the cable looks"
                + " the same: prove it dead again, then start anew");
      }
    }
  }

  /**
   * Once through the open phase. A winding that hum keeps a current in kicks when its port is let
   * go of, and trips the interlock with nothing foreign on the cable: where the look for voltage
   * finds none and a winding shows at a port that tripped, the phase begins again and leaves it
   * held.
   */
  private OpenPhase openCable(boolean first)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    for (int kicking = 0; ; ) {
      OpenPhase phase = new OpenPhase(board, ALL_PORTS, options.declaredPorts(), kicking);
      try {
        perform(first ? "far end open: shorts and leakage" : "far end open, again", phase);
        return phase;
      } catch (InterlockTripped trip) {
        int known = kicking;
        kicking |= kicked(trip);
        if (kicking == known) {
          throw trip;
        }
        listener.note(
            "interlock tripped, no voltage found: the kick of a coil at "
                + Ports.names(Ports.list(kicking))
                + ". Measured again, with its ends held");
      }
    }
  }

  /**
   * Mask of the ports with a winding, where nothing but such ports tripped the interlock and no
   * voltage shows, with the relays open before anything is driven and again after it; otherwise
   * none, and the trip stands. A pulse on a coil's own ends that is over before the first look
   * cannot be told from the coil's kick: hence no more than a few.
   */
  private int kicked(InterlockTripped trip) throws InstrumentTrouble, InterlockTripped {
    if (++kicks > MOST_KICKS || trip.flags() == 0) {
      return 0;
    }
    try {
      assureDead();
      if (!instrument.arm().isEmpty()) {
        return 0;
      }
      WindingPhase phase = new WindingPhase(board, ALL_PORTS, ALL_PORTS);
      perform("coils", phase);
      assureDead();
      if (!instrument.arm().isEmpty()) {
        return 0;
      }
      return (trip.flags() & ~phase.windings()) == 0 ? phase.windings() : 0;
    } catch (VoltageFound voltage) {
      return 0; // the trip stands, and the voltage is looked for again with it
    }
  }

  /** By two rounds: hum may spoil one. */
  private boolean gone(FarEndWatch watch) throws InstrumentTrouble, InterlockTripped {
    if (!watch.gone()) {
      return false;
    }
    look(watch);
    return watch.gone();
  }

  /** Whether so many conductors hang together that it looks like a plug rather than a fault. */
  private static boolean somethingIsOn(OpenResult result) {
    int joined = result.mostJoined(JOINED_OHMS);
    return joined > 2 && 2 * joined > result.conductors().size();
  }

  /**
   * Waits, within the waiting time, for the far end to look as at the phase's start, or where that
   * was the trouble, to look different.
   *
   * @return whether it did
   */
  private boolean waitForOpen(FarEndWatch watch, boolean different)
      throws InstrumentTrouble, InterlockTripped {
    double[] before = watch.lastOhms();
    long until = deviceMicros + options.waitMicros();
    while (deviceMicros < until) {
      Sight sight = look(watch);
      if (different ? !watch.unchangedSince(before) : sight.kind() == FarEndKind.OPEN) {
        return true;
      }
      listener.waiting(
          different ? "take the plug off" : "leave the far end open",
          different ? "joined as before" : sight.words(),
          (until - deviceMicros) / 1_000_000);
    }
    return false;
  }

  private @Nullable Sight waitFor(
      FarEndWatch watch, Set<FarEndKind> wanted, long limitMicros, String what)
      throws InstrumentTrouble, InterlockTripped {
    long start = deviceMicros;
    while (true) {
      Sight sight = look(watch);
      long waited = deviceMicros - start;
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

  private Sight look(FarEndWatch watch) throws InstrumentTrouble, InterlockTripped {
    Measured measured = instrument.measure(rests.between(watch.round()), share -> {});
    deviceMicros = measured.endMicros();
    return watch.observe(rests.without(measured.readings()), deviceMicros);
  }

  private @Nullable StarResult plugPhase(OpenResult cable, FarEndWatch watch, FarEndKind kind)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    assureDead();
    for (int attempt = 0; attempt < RESTARTS; attempt++) {
      Sight before = look(watch);
      if (before.kind() != kind) {
        return null;
      }
      double[] ohms = watch.lastOhms();
      StarPhase phase = new StarPhase(board, before.connected(), cable, ohms, inPlace);
      perform(
          kind == FarEndKind.TIE ? "tie plug: resistances" : "coded plug: which is which",
          new RestedPhase(phase, rests));
      look(watch);
      assureDead();
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
    long start = deviceMicros;
    double[] seated = watch.lastOhms();
    while (watch.unchangedSince(seated)) {
      Sight sight = look(watch);
      if (deviceMicros - start > options.reseatMicros()) {
        listener.note("not seated afresh: whether it is a contact or a joint stays open");
        return;
      }
      listener.waiting(
          "seat " + ports + " afresh",
          sight.words(),
          (options.reseatMicros() - deviceMicros + start) / 1_000_000);
    }
    Sight again =
        waitFor(
            watch, EnumSet.of(FarEndKind.TIE), options.reseatMicros(), "put the tie plug on again");
    StarResult star = again == null ? null : plugPhase(cable, watch, FarEndKind.TIE);
    if (star != null) {
      ties.add(star);
    }
  }

  private void perform(String title, Phase phase) throws InstrumentTrouble, InterlockTripped {
    // The looks for voltage between the phases are routine: only the first is announced.
    if (!(phase instanceof ForeignCheck) || times.isEmpty()) {
      listener.phase(title);
    }
    long start = -1;
    long conversions = 0;
    int readings = 0;
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      Measured measured = instrument.measure(probes, listener::progress);
      start = start < 0 ? measured.startMicros() : start;
      deviceMicros = measured.endMicros();
      conversions += measured.conversionMicros();
      readings += measured.readings().size();
      phase.accept(measured.readings());
    }
    times.add(new PhaseTime(title, start < 0 ? 0 : deviceMicros - start, conversions, readings));
  }

  /**
   * A look with every relay open, before and after each phase: what stays below the interlock's
   * window would still be in the readings. One that finds a voltage is done twice, as it may have
   * come in the middle of the first.
   */
  private void assureDead() throws InstrumentTrouble, InterlockTripped, VoltageFound {
    assureDead(false);
  }

  private void assureDead(boolean suspicious)
      throws InstrumentTrouble, InterlockTripped, VoltageFound {
    Foreign seen = lookForVoltage(suspicious);
    if (seen != null) {
      Foreign again = lookForVoltage(suspicious);
      throw new VoltageFound(again == null ? seen : again);
    }
  }

  private @Nullable Foreign lookForVoltage(boolean suspicious)
      throws InstrumentTrouble, InterlockTripped {
    ForeignCheck check = new ForeignCheck(board, suspicious);
    perform("interlock: is anything live?", check);
    return check.foreign();
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
        List.copyOf(times));
  }

  private static String words(Set<FarEndKind> wanted) {
    return wanted.contains(FarEndKind.CODED) && wanted.contains(FarEndKind.TIE)
        ? "coded plug (or the tie plug)"
        : wanted.contains(FarEndKind.CODED) ? "coded plug" : "tie plug";
  }
}
