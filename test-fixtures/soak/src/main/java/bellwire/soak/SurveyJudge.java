package bellwire.soak;

import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Standing;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.survey.SurveyResult.PairResult;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.survey.SurveyOutcome;
import bellwire.simbench.cable.Truth;
import bellwire.soak.Mishap.Kind;
import java.util.Objects;

/** Holds a survey's outcome to what is really there. */
final class SurveyJudge {
  /** Of a normal distribution one in two million is further off. */
  private static final double MOST_SIGMAS = 5;

  private static final long TRIP_MICROS = 1_000_000;

  private final Scenario scenario;
  private final World world;
  private final Tally tally;

  SurveyJudge(Scenario scenario, World world, Tally tally) {
    this.scenario = scenario;
    this.world = world;
    this.tally = tally;
  }

  /**
   * Nothing wrong is said, whatever went on meanwhile.
   *
   * @param plugged whether a plug was on while the cable should have been open, and nobody took it
   *     off, whatever was asked: what touches then really does
   */
  void judge(Slot slot, boolean plugged, SurveyOutcome outcome) {
    SurveyResult result = outcome.result();
    if (result == null) {
      tally.count("surveys stopped by voltage", 1);
      boolean there =
          scenario.mishaps().stream()
              .anyMatch(
                  m ->
                      m.kind() == Kind.FOREIGN_VOLTAGE
                          && m.within(slot.micros() - TRIP_MICROS, world.nowMicros()));
      if (!there) {
        throw new Broken(
            "voltage that is not there: " + outcome.foreign() + " flags=" + outcome.trippedFlags());
      }
      return;
    }
    tally.count("surveys with a result", 1);
    Truth truth = world.device().copper().truth();
    if (!plugged) {
      result.pairs().forEach(this::pair);
    }
    for (ConductorResult each : result.conductors()) {
      if (each.port() != Ports.METAL) {
        conductor(each, plugged, truth);
      }
    }
  }

  private void pair(PairResult said) {
    int both = 1 << said.a() | 1 << said.b();
    boolean bridged = Integer.bitCount(scenario.unsound()) == 2 && both == scenario.unsound();
    if (bridged ? said.standing() == Standing.SOUND : said.standing() == Standing.FAULTY) {
      throw new Broken("said of a pair that is " + (bridged ? "bridged: " : "not: ") + said);
    }
  }

  private void conductor(ConductorResult said, boolean plugged, Truth truth) {
    if ((scenario.ports() >>> said.port() & 1) == 0) {
      throw new Broken("a conductor where there is none: " + said);
    }
    boolean unsound = (scenario.unsound() >>> said.port() & 1) != 0;
    Truth.Wire wire = truth.wire(said.port());
    tally.count("conductors " + said.standing(), 1);
    if (said.position() != 0 && said.position() != wire.far()) {
      throw new Broken("wrong far position: " + said + " truth=" + wire);
    }
    if (said.standing() == Standing.SOUND && unsound) {
      throw new Broken("called sound: " + said + " truth=" + wire);
    }
    if (said.standing() == Standing.FAULTY && !unsound && !plugged) {
      throw new Broken("a fault that is not there: " + said + " truth=" + wire);
    }
    Quantity ohms = said.ohms();
    if (ohms != null && !unsound && Math.abs(ohms.value() - wire.ohms()) > MOST_SIGMAS * ohms.u()) {
      throw new Broken("wrong resistance: " + said + " truth=" + wire);
    }
  }

  /**
   * All of a calm survey is there. Beside a fault a conductor may stay undecided: its odds come
   * near the million that is asked for.
   */
  void whole(SurveyOutcome outcome) {
    SurveyResult result = Objects.requireNonNull(outcome.result());
    for (Truth.Wire wire : world.device().copper().truth().wires()) {
      if ((scenario.unsound() >>> wire.port() & 1) != 0) {
        continue;
      }
      boolean sound =
          result.conductors().stream()
              .anyMatch(
                  c ->
                      c.port() == wire.port()
                          && c.standing() == Standing.SOUND
                          && c.position() == wire.far()
                          && c.ohms() != null);
      if (!sound && scenario.unsound() != 0) {
        tally.count("conductors undecided beside a fault, all calm", 1);
      } else if (!sound) {
        throw new Broken("not found sound once all is calm: " + wire + " in " + result);
      }
    }
    tally.count("calm surveys whole and right", 1);
  }
}
