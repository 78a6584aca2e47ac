package bellwire.benchmarks;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;
import org.openjdk.jmh.runner.options.VerboseMode;
import org.openjdk.jmh.util.Statistics;

/** Work inside one process, by JMH; each class has seen that all do the same. */
final class JmhRows {
  /**
   * @param methods of the class beside {@code ours}, and the peers' names
   */
  private record Plan(Class<?> of, String work, String ours, Map<String, String> methods) {}

  private static final List<Plan> PLANS =
      List.of(
          new Plan(
              FrameDecoding.class,
              "a frame of 200 conversions, decoded",
              "frames of the link, checked",
              Map.of(
                  "cborLibraryAlone", "Jackson CBOR alone: no stuffing, checksum, limits",
                  "protobuf", "Protocol Buffers: no stuffing, checksum, limits")),
          new Plan(
              DenseSolves.class,
              "33 nodes, factors and one right-hand side",
              "EJML, as the inference uses it",
              Map.of("hipparchus", "Hipparchus", "ojAlgo", "ojAlgo")),
          new Plan(
              LogicMonitoring.class,
              "a rule's robustness over 2000 moments",
              "the monitor",
              Map.of("definitions", "the definitions, moment by moment")));

  private JmhRows() {}

  /**
   * @param briefly each once, in this process, to see that it runs
   */
  static List<Row> rows(boolean briefly) throws RunnerException {
    List<Row> rows = new ArrayList<>();
    for (Plan plan : PLANS) {
      Map<String, Figure> figures = run(plan.of, briefly);
      List<Row.Peer> peers = new ArrayList<>();
      new TreeMap<>(plan.methods)
          .forEach((method, name) -> peers.add(new Row.Peer(name, figure(figures, method))));
      rows.add(new Row(plan.work, "µs", plan.ours, figure(figures, "ours"), peers));
    }
    return rows;
  }

  private static Figure figure(Map<String, Figure> figures, String method) {
    Figure figure = figures.get(method);
    if (figure == null) {
      throw new IllegalArgumentException("method=" + method);
    }
    return figure;
  }

  private static Map<String, Figure> run(Class<?> benchmark, boolean briefly)
      throws RunnerException {
    // The lock is against two runs that disturb each other's times.
    System.setProperty("jmh.ignoreLock", "true");
    OptionsBuilder options = new OptionsBuilder();
    options.include("^" + benchmark.getName() + "\\.").shouldFailOnError(true);
    options.verbosity(VerboseMode.SILENT);
    if (briefly) {
      options.mode(Mode.SingleShotTime).forks(0).warmupIterations(0);
      options.measurementIterations(1).measurementTime(TimeValue.milliseconds(1));
    }
    Collection<RunResult> results = new Runner(options.build()).run();
    Map<String, Figure> figures = new TreeMap<>();
    for (RunResult result : results) {
      String name = result.getParams().getBenchmark();
      Statistics all = result.getPrimaryResult().getStatistics();
      figures.put(
          name.substring(name.lastIndexOf('.') + 1),
          new Figure(all.getPercentile(50), all.getMin(), all.getMax()));
    }
    return figures;
  }
}
