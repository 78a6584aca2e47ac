package bellwire.analysis.landing;

import static bellwire.analysis.findings.LoopFinding.*;
import static bellwire.analysis.landing.ByHand.*;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Transformer;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Limits and figures of findings that the table of mistakes does not come near. */
class FindingsTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final List<State> STATES = FURNACE.control().states();

  private static List<Found> found(Installation of, LoopFinding kind) {
    return LandingCheck.check(of).stream().filter(f -> f.kind() == kind).toList();
  }

  @ParameterizedTest
  @CsvSource({
    "3, 3",
    "2.5, 2.5",
    "1.666, 1.67",
    "20, 20",
    "100, 100",
    "0.5, 0.5",
    "0.1, 0.1",
    "0.05, 0.05",
    "0.005, 0.005",
    "0.0625, 0.063"
  })
  void aFigureHasNoTrailingZeros(double value, String words) {
    assertThat(Figures.number(value)).isEqualTo(words);
  }

  @Test
  void namesAreListedAsInASentence() {
    assertThat(Figures.listed(List.of())).isEmpty();
    assertThat(Figures.listed(List.of("a"))).isEqualTo("a");
    assertThat(Figures.listed(List.of("a", "b"))).isEqualTo("a and b");
    assertThat(Figures.listed(List.of("a", "b", "c"))).isEqualTo("a, b and c");
  }

  /** 27 V, 24 V and 1.67 A become 25.65 V, 22.8 V and 1.58 A: volts and amperes fall together. */
  @Test
  void lowMainsLowerVoltsAndRatedAmpsAndRaiseWhatIsUncertain() {
    List<Cable.Conductor> conductors =
        List.of(
            new Cable.Conductor("red", "red", "red", 0.5, 0.2),
            new Cable.Conductor("blue", "blue", "blue", Double.POSITIVE_INFINITY, 0.2));
    Installation low = LowMains.of(FURNACE.withCable(new Cable("measured", conductors, List.of())));
    Transformer t = low.equipment().all(Transformer.class).get(0);
    assertThat(t.openVolts()).isCloseTo(25.65, within(1e-9));
    assertThat(t.ratedVolts()).isCloseTo(22.8, within(1e-9));
    assertThat(t.ratedAmps()).isCloseTo(0.95 * 40 / 24, within(1e-9));
    assertThat(low.cable().conductor("red").ohms()).isCloseTo(0.9, within(1e-12));
    assertThat(low.cable().conductor("blue")).isEqualTo(conductors.get(1));
  }

  private static Sightings.Account words(String words) {
    return new Account(words, List.of("path"), List.of("where"));
  }

  @Test
  void sightingsOfOneThingMakeOneFindingWithTheWeightiestsWords() {
    Sightings seen = new Sightings(STATES);
    String first = STATES.get(0).name();
    String second = STATES.get(1).name();
    seen.add(HELD, "fan", second, 2, false, () -> words("two"));
    seen.add(HELD, "fan", first, 1, false, () -> words("one"));
    seen.add(HELD, "fan", first, 2, false, () -> words("two again"));
    seen.add(HELD, "valve", first, 1, false, () -> words("valve"));
    assertThat(seen.found())
        .containsExactly(
            new Found(
                HELD, List.of(first, second), "two", List.of("path"), List.of("where"), false),
            new Found(HELD, List.of(first), "valve", List.of("path"), List.of("where"), false));
  }

  @Test
  void noticesComeLastAndOneFaultMakesAFault() {
    Sightings seen = new Sightings(STATES);
    assertThat(seen.faults()).isFalse();
    assertThat(seen.found()).isEmpty();
    STATES.forEach(
        s -> seen.add(SUPPLY_SHORTED, "a", s.name(), 0, true, () -> new Account("noticed")));
    assertThat(seen.faults()).isFalse();
    String state = STATES.get(3).name();
    seen.add(HELD, "b", state, 0, true, () -> new Account("held"));
    seen.add(HELD, "b", state, 0, false, () -> new Account("held"));
    assertThat(seen.faults()).isTrue();
    assertThat(seen.found()).extracting(Found::words).containsExactly("held", "noticed");
    // What shows in every state names none
    assertThat(seen.found().get(1).states()).isEmpty();
  }

  private static Installation withOhms(String conductor, double ohms) {
    return FURNACE.withCable(Jobs.with(FURNACE.cable(), conductor, ohms));
  }

  /** 16 V keep it alive: 181 ohm in its common leave 16.5 V, and 15.7 V with low mains. */
  @Test
  void aControlThatLivesOnlyOnGoodMainsIsDoubtful() {
    double volts = volts(OPEN_VOLTS, ohms(288), TRANSFORMER, CONDUCTOR, ohms(181));
    Found doubtful = found(withOhms("blue", 181), CONTROL_DOUBTFUL).get(0);
    assertThat(doubtful.notice()).isFalse();
    // The least is told: while the contactor pulls in it is 16.1 V
    assertThat(volts).isCloseTo(16.5, within(0.05));
    assertThat(doubtful.words())
        .isEqualTo(
            String.format(
                Locale.ROOT,
                "the control gets 16.1 V (needs 16 V), with the mains 5 %% low %.1f V",
                0.95 * volts));
    assertThat(doubtful.where()).containsExactly("R at the control", "C at the control");
    // 17.7 V, 16.3 V with low mains while the contactor pulls in
    assertThat(found(withOhms("blue", 150), CONTROL_DOUBTFUL)).isEmpty();
    assertThat(found(withOhms("blue", 150), CONTROL_BLANK)).isEmpty();
    // 15.8 V
    assertThat(found(withOhms("blue", 200), CONTROL_BLANK)).hasSize(1);
    assertThat(found(withOhms("blue", 200), CONTROL_DOUBTFUL)).isEmpty();
  }

  /** 26.8 V: half a watt in 1440 ohm. */
  @Test
  void aTouchThatTakesHalfAWattIsTold() {
    Found found = found(Variant.bridged(FURNACE, "red", "blue", 1400, 0), TOUCH_CARRIES).get(0);
    double volts = volts(OPEN_VOLTS, parallel(ohms(288), ohms(1400)), TRANSFORMER);
    assertThat(found.words())
        .isEqualTo(
            String.format(
                Locale.ROOT,
                "red touches blue: %.1f V drive %.2f A, %.1f W",
                volts,
                volts / 1400,
                volts * volts / 1400));
    assertThat(found.where()).containsExactly("red", "blue");
    assertThat(found(Variant.bridged(FURNACE, "red", "blue", 1500, 0), TOUCH_CARRIES)).isEmpty();
    Found metal =
        found(
                FURNACE.withCable(
                    new Cable(
                        "damp",
                        FURNACE.cable().conductors(),
                        List.of(new Cable.Bridge("red", null, 1400, 0)))),
                TOUCH_CARRIES)
            .get(0);
    assertThat(metal.words()).startsWith("red touches bare metal: 26.8 V drive 0.02 A, 0.5 W");
    assertThat(metal.where()).containsExactly("red");
    assertThat(found(Variant.bridged(FURNACE, "red", "white", 0.05, 0.5), TOUCH_CARRIES)).isEmpty();
  }

  @Test
  void whatHangsFreeAndIsLiveIsNoticed() {
    Found near = found(Variant.landed(FURNACE, "red", "R", null), ON_NOTHING).get(0);
    assertThat(near.words())
        .isEqualTo(
            "red is under R at the equipment, its other end hangs free at the control with 27.0 V on"
                + " it");
    assertThat(near.notice()).isTrue();
    assertThat(near.where()).containsExactly("red", "R at the equipment");
    Installation two = Variant.landed(SampleLoops.HEAT_PUMP_O.healthy(), "brown", null, "RC");
    assertThat(found(two, ON_NOTHING))
        .extracting(Found::words)
        .containsExactly(
            "brown is under RC at the control, its other end hangs free at the equipment with 27.0 V"
                + " on it");
    // Dead: W while nothing calls is told of the call only; common has no volts on it
    assertThat(found(Variant.landed(FURNACE, "blue", "C", null), ON_NOTHING)).isEmpty();
    Found call = found(Variant.landed(FURNACE, "white", null, "W"), ON_NOTHING).get(0);
    assertThat(call.states()).containsExactly("heat, calling");
    assertThat(found(SampleLoops.HEAT_PUMP_O.healthy(), ON_NOTHING)).isEmpty();
  }
}
