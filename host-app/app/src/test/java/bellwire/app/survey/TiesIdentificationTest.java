package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Standing;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.ties.TiePlan;
import bellwire.analysis.ties.TiePlans;
import bellwire.analysis.ties.TieReading;
import bellwire.app.survey.RandomCable.Fault;
import bellwire.simbench.cable.Truth;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * Cables of 3 to 16 conductors through every layer, tied in two rounds: identified, or left open
 * exactly as the faulty graph allows, and never wrong.
 */
class TiesIdentificationTest {
  private static final int CABLES = Integer.getInteger("bellwire.ties", 32);
  private static final Pattern BRIDGE =
      Pattern.compile("between: \\[P(\\d+), (M|P\\d+)\\], at: \\S+ ohm: ([\\d.]+)");
  private static final Pattern ON_ONE = Pattern.compile("conductor: P(\\d+)");

  /** A tie of conductors that have more than this together is taken for none. */
  private static final double TIED_OHMS = 80;

  private static final double SHORTED_OHMS = 100;

  private static final class Tally {
    int cables;
    int conductors;
    int identified;
    int undecided;
    final List<String> wrong = new ArrayList<>();
  }

  @Test
  void everyConductorIsIdentifiedOrLeftOpenAsPredicted() throws Exception {
    Fault[] faults = {Fault.NONE, Fault.OPEN, Fault.SHORT, Fault.JOINT, Fault.BRIDGE, Fault.LEAK};
    Map<Fault, Tally> tallies = new EnumMap<>(Fault.class);
    for (int seed = 1; seed <= CABLES; seed++) {
      int n = 3 + seed % 14;
      Fault fault = faults[seed / 14 % faults.length];
      TiePlan plan =
          seed % 5 == 0 ? TiePlans.everyTied(n).orElse(TiePlans.fewest(n)) : TiePlans.fewest(n);
      TiedCable tied = new TiedCable(new RandomCable(seed, fault, n), plan);
      SurveyOptions options =
          SimulatedSurvey.options(EnumSet.noneOf(FarEndKind.class), 150)
              .withTies(new TieChoice(n, plan.untied().isEmpty()));
      SimulatedSurvey survey = SimulatedSurvey.run(tied.yaml(), options);
      SurveyResult result = survey.outcome.result();
      assertThat(result).as("%s", tied.cable).isNotNull();
      List<Integer> opens = opens(tied.cable, survey.truth);
      count(tallies.computeIfAbsent(fault, f -> new Tally()), tied, opens, result);
    }
    System.out.println("fault      cables  conductors  identified  left open  wrong");
    tallies.forEach(
        (fault, t) ->
            System.out.printf(
                "%-10s %6d %11d %11d %10d %6d%n",
                fault, t.cables, t.conductors, t.identified, t.undecided, t.wrong.size()));
    assertThat(tallies.values()).allSatisfy(t -> assertThat(t.wrong).isEmpty());
    assertThat(tallies.get(Fault.NONE).undecided).isZero();
  }

  /** Two faults can look like one (docs/ties.md, limits); drawn at random they hardly do. */
  @Test
  void withTwoFaultsNoneOfTheseIsIdentifiedWrongly() throws Exception {
    int identified = 0;
    int conductors = 0;
    for (int seed = 1; seed <= CABLES / 6; seed++) {
      int n = 3 + seed % 14;
      TiedCable tied = new TiedCable(new RandomCable(seed, Fault.TWO, n), TiePlans.fewest(n));
      SurveyOptions options =
          SimulatedSurvey.options(EnumSet.noneOf(FarEndKind.class), 150)
              .withTies(new TieChoice(n, false));
      SurveyResult result = SimulatedSurvey.run(tied.yaml(), options).outcome.result();
      assertThat(result).as("%s", tied.cable).isNotNull();
      for (ConductorResult said : result.conductors()) {
        int truth = tied.number(tied.cable.ports.indexOf(said.port()));
        assertThat(said.position()).as("%s %s", tied.cable, said).isIn(0, truth);
        identified += said.position() == 0 ? 0 : 1;
      }
      conductors += n;
    }
    System.out.println("TWO: " + identified + " of " + conductors + " identified, none wrongly");
  }

  private static void count(Tally tally, TiedCable tied, List<Integer> opens, SurveyResult result) {
    RandomCable cable = tied.cable;
    assertThat(result.ties()).as("%s", cable).isNotNull();
    TieReading reading = result.ties().reading();
    // Capacitance may tell which port's conductor is broken, and then must tell it right.
    assertThat(opens).as("%s", cable).containsAll(reading.surelyBroken());
    TieReading predicted =
        tied.predicted(opens, shorts(cable), List.copyOf(reading.surelyBroken()));
    // A conductor that is broken close to the board has no port.
    predicted.possible().keySet().retainAll(reading.possible().keySet());
    if (!reading.possible().equals(predicted.possible())) {
      tally.wrong.add(cable + " predicted=" + predicted.possible() + " said=" + reading);
    }
    tally.cables++;
    for (int c = 0; c < cable.conductors; c++) {
      tally.conductors++;
      int port = cable.ports.get(c);
      ConductorResult said =
          result.conductors().stream().filter(r -> r.port() == port).findFirst().orElse(null);
      if (said == null) {
        assertThat(opens).as("%s", cable).contains(port);
        tally.undecided++;
        continue;
      }
      if (said.position() == 0) {
        tally.undecided++;
      } else if (said.position() == tied.number(c)) {
        tally.identified++;
      } else {
        tally.wrong.add(cable + " " + said + " truth=" + tied.number(c));
      }
      if (opens.contains(port) && said.standing() == Standing.SOUND) {
        tally.wrong.add(cable + " broken conductor called sound: " + said);
      }
      if (!reading.possible().get(port).contains(tied.number(c))) {
        tally.wrong.add(cable + " truth left out: " + said);
      }
    }
  }

  /** Ports of broken conductors, or of such as have a joint that reads like it. */
  private static List<Integer> opens(RandomCable cable, Truth truth) {
    List<Integer> ports = new ArrayList<>();
    cable.opens.forEach(open -> ports.add(port(open)));
    for (String joint : cable.joints) {
      Truth.Wire wire = truth.wire(port(joint));
      if (wire.ohms() + wire.copperOhms() > TIED_OHMS) {
        ports.add(port(joint));
      }
    }
    return ports;
  }

  private static int port(String line) {
    Matcher matcher = ON_ONE.matcher(line);
    assertThat(matcher.find()).isTrue();
    return Integer.parseInt(matcher.group(1)) - 1;
  }

  private static List<List<Integer>> shorts(RandomCable cable) {
    List<List<Integer>> groups = new ArrayList<>();
    for (String bridge : cable.bridges) {
      Matcher matcher = BRIDGE.matcher(bridge);
      assertThat(matcher.find()).as(bridge).isTrue();
      if (Double.parseDouble(matcher.group(3)) < SHORTED_OHMS) {
        String other = matcher.group(2);
        int b = other.equals("M") ? Ports.METAL : Integer.parseInt(other.substring(1)) - 1;
        int a = Integer.parseInt(matcher.group(1)) - 1;
        groups.add(List.of(Math.min(a, b), Math.max(a, b)));
      }
    }
    return groups;
  }
}
