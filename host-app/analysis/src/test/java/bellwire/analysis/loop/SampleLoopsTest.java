package bellwire.analysis.loop;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.LoadResult;
import java.util.List;
import java.util.Set;
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
      List<String> on =
          result.loads().stream()
              .filter(l -> l.energised() == Energised.ON)
              .map(l -> l.load().name())
              .toList();
      assertThat(on).as(name).containsAll(wanted.must());
      assertThat(Stream.of(wanted.must(), wanted.may()).flatMap(Set::stream))
          .as(name)
          .containsAll(on);
      assertThat(result.settled() && result.lit()).as(name).isTrue();
      for (LoadResult load : result.loads()) {
        String what = name + ", " + load;
        assertThat(load.energised()).as(what).isNotEqualTo(Energised.DOUBTFUL);
        assertThat(load.held()).as(what).isEqualTo(load.energised() == Energised.ON);
        assertThat(load.volts()).as(what).isLessThan(load.load().mostVolts());
      }
      assertThat(result.fuses()).as(name).noneMatch(f -> f.opens().possible());
      assertThat(result.transformers()).as(name).noneMatch(t -> t.overloaded());
    }
  }

  @ParameterizedTest
  @EnumSource
  void everyCallIsMade(SampleLoops sample) {
    assertThat(sample.healthy().control().states())
        .extracting(Control.State::call)
        .containsAll(sample.healthy().equipment().wanted().keySet());
  }
}
