package bellwire.analysis.loop;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.LoadResult;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class SampleLoopsTest {
  @ParameterizedTest
  @EnumSource
  void everyCallRunsExactlyWhatIsWanted(SampleLoops sample) {
    for (StateResult result : new Simulation(sample.healthy()).states()) {
      String name = sample + ", " + result.state().name();
      Wanted wanted = sample.healthy().equipment().wantedOn(result.state().call());
      Set<String> on =
          result.loads().stream()
              .filter(l -> l.energised() == Energised.ON)
              .map(l -> l.load().name())
              .collect(Collectors.toSet());
      Set<String> allowed =
          Stream.concat(wanted.must().stream(), wanted.may().stream()).collect(Collectors.toSet());
      assertTrue(on.containsAll(wanted.must()), name + " runs " + on);
      assertTrue(allowed.containsAll(on), name + " runs " + on);
      assertTrue(result.settled() && result.lit(), name);
      for (LoadResult load : result.loads()) {
        String what = name + ", " + load;
        assertFalse(load.energised() == Energised.DOUBTFUL, what);
        assertEquals(load.energised() == Energised.ON, load.held(), what);
        assertTrue(load.volts() <= load.load().mostVolts(), what);
      }
      assertAll(
          result.fuses().stream()
              .map(f -> () -> assertFalse(f.opens().possible(), name + ", " + f)));
      assertAll(
          result.transformers().stream()
              .map(t -> () -> assertFalse(t.overloaded(), name + ", " + t)));
    }
  }
}
