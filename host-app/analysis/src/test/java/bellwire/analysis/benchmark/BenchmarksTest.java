package bellwire.analysis.benchmark;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collection;
import org.junit.jupiter.api.Test;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;
import org.openjdk.jmh.runner.options.VerboseMode;

/**
 * Runs the module's JMH benchmarks: those that match {@code -Dbellwire.benchmarks=EXPRESSION}, in a
 * virtual machine of their own, as their annotations say. Without it every one runs once in this
 * one, to see that it runs; times are never judged.
 */
class BenchmarksTest {

  @Test
  void run() throws RunnerException {
    // The lock is against two runs that disturb each other's times.
    System.setProperty("jmh.ignoreLock", "true");
    String chosen = System.getProperty("bellwire.benchmarks");
    OptionsBuilder options = new OptionsBuilder();
    options.shouldFailOnError(true);
    if (chosen != null) {
      options.include(chosen);
    } else {
      options.include(".*").mode(Mode.SingleShotTime).forks(0).warmupIterations(0);
      options.measurementIterations(1).measurementTime(TimeValue.milliseconds(1));
      options.verbosity(VerboseMode.SILENT);
    }
    Collection<RunResult> results = new Runner(options.build()).run();
    assertThat(results).isNotEmpty();
    results.forEach(
        result ->
            assertThat(result.getPrimaryResult().getScore()).as(result.toString()).isPositive());
  }
}
