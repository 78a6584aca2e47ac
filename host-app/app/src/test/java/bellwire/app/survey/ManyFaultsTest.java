package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.fault.Explanation;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.survey.Standing;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.simbench.cable.Truth;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Cables with up to six faults at once through every layer: whatever else can't be told, no
 * conductor is placed on a wrong far position, none that is broken is called sound, and the
 * interlock does not trip on a dead cable.
 */
class ManyFaultsTest {
  private static final int CABLES = Integer.getInteger("bellwire.cables", 24);
  private static final int FIRST = Integer.getInteger("bellwire.seed", 1);

  /** Not looked for in a joint smaller than this, or than this share of the conductor. */
  private static final double JOINT_OHMS = 0.15;

  private static final double JOINT_SHARE = 0.06;

  private int conductors;
  private int placed;
  private int unexplained;
  private int first;
  private int blamed;
  private int jointSound;
  private int refused;
  private final List<String> wrong = new ArrayList<>();

  @Test
  void nothingSaidOfACableFullOfFaultsIsWrong() {
    for (int seed = FIRST; seed < FIRST + CABLES; seed++) {
      if (seed % 100 == 0) {
        print(seed - 1);
      }
      survey(new ManyFaultsCable(seed));
    }
    print(FIRST + CABLES - 1);
    assertThat(wrong).isEmpty();
  }

  /**
   * P3 leaks to metal behind a clamp of 1.2 kohm: the arms of its fellows came out 0.4 ohm low, and
   * one was placed a step too low.
   */
  @Test
  void aLeakageBehindAPoorClampMovedAFellow() {
    assertNothingWrong(17);
  }

  /** Two of three conductors touch: no arm is read by itself, and their ratio fits many pairs. */
  @Test
  void manyPositionsFittedAndTheFirstThreeWereTaken() {
    assertNothingWrong(21);
  }

  /** The far part of one that is broken touches one of two that touch each other. */
  @Test
  void aBrokenConductorLentItsArmToACluster() {
    assertNothingWrong(77, 81);
  }

  /**
   * With joints of 40 ohm a tie plug reads about the limit between the plugs, now this, now that.
   */
  @Test
  void aPlugThatLookedLikeEitherHeldTheSurveyForEver() {
    assertNothingWrong(89);
  }

  private void assertNothingWrong(int... seeds) {
    for (int seed : seeds) {
      System.out.println("seed=" + seed);
      survey(new ManyFaultsCable(seed));
    }
    assertThat(wrong).isEmpty();
  }

  private void survey(ManyFaultsCable cable) {
    try {
      SimulatedSurvey survey =
          SimulatedSurvey.run(cable.yaml(), SimulatedSurvey.options(cable.plugs, 45));
      SurveyOutcome outcome = survey.outcome;
      if (outcome.result() == null) {
        wrong(cable, "stopped: " + outcome.foreign() + " flags=" + outcome.trippedFlags());
      } else {
        look(cable, survey.truth, outcome.result());
      }
    } catch (InstrumentTrouble e) {
      // Most conductors joined by faults look like a plug; the one drawn comes while that is asked.
      refused++;
      System.out.println("REFUSED " + e.getMessage() + "\n    " + cable);
    } catch (Exception e) {
      wrong(cable, e + " at " + List.of(e.getStackTrace()));
    }
  }

  private void print(int last) {
    System.out.printf(
        "seeds %d to %d: %d conductors, %d placed, %d cables unexplained, %d with the true faults"
            + " first; %d whole conductors called faulty, %d joints called sound; %d refused,"
            + " %d wrong%n",
        FIRST,
        last,
        conductors,
        placed,
        unexplained,
        first,
        blamed,
        jointSound,
        refused,
        wrong.size());
  }

  private void wrong(ManyFaultsCable cable, String what) {
    System.out.println("WRONG " + what + "\n    " + cable);
    wrong.add(what + " " + cable);
  }

  private void look(ManyFaultsCable cable, Truth truth, SurveyResult result) {
    List<Explanation> said = result.explanations();
    unexplained += said.isEmpty() || !said.get(0).explained() ? 1 : 0;
    first += !said.isEmpty() && said.get(0).sameFaults(cable.truth) ? 1 : 0;
    for (Truth.Wire wire : truth.wires()) {
      conductors++;
      ConductorResult conductor =
          result.conductors().stream()
              .filter(c -> c.port() == wire.port())
              .findFirst()
              .orElse(null);
      if (conductor == null) {
        continue;
      }
      if (conductor.position() != 0) {
        placed++;
        if (conductor.position() != wire.far() || cable.conductors < 3) {
          wrong(cable, "placed " + conductor + " truth=" + wire + "\n    " + said.get(0));
        }
      }
      if (conductor.standing() == Standing.SOUND) {
        if (wire.open()) {
          wrong(cable, "broken called sound " + conductor);
        }
        if (wire.jointOhms() > 2 * Math.max(JOINT_OHMS, JOINT_SHARE * wire.copperOhms())) {
          jointSound++;
          System.out.println("JOINT SOUND " + conductor + " truth=" + wire + "\n    " + cable);
        }
      }
      boolean own =
          cable.contactsForced()
              || cable.truth.stream()
                  .anyMatch(
                      f -> f.ports().contains(wire.port()) || f.others().contains(wire.port()));
      if (conductor.standing() == Standing.FAULTY && !own) {
        blamed++;
        System.out.println("BLAMED " + conductor + "\n    " + cable + "\n    " + said.get(0));
      }
      boolean saidBroken =
          !said.isEmpty()
              && said.get(0).explained()
              && said.get(0).probability() > 0.5
              && said.get(0).faults().stream()
                  .anyMatch(f -> f.kind() == Fault.Kind.OPEN && f.ports().contains(wire.port()));
      if (saidBroken && !wire.open() && !cable.contactsForced()) {
        System.out.println("SAID BROKEN " + wire + "\n    " + cable + "\n    " + said.get(0));
      }
    }
  }
}
