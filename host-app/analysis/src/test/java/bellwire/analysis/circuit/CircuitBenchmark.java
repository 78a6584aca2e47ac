package bellwire.analysis.circuit;

import java.util.concurrent.TimeUnit;
import org.hipparchus.complex.Complex;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** One circuit built and solved, by its nodes; a control loop has one load to three nodes or so. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class CircuitBenchmark {
  @Param({"10", "20", "40"})
  public int nodes;

  private final DenseNodes dense = new DenseNodes();
  private DrawnCircuit drawn = DrawnCircuit.draw(1, 2, 1);
  private Circuit circuit = new Circuit(0);

  @Setup
  public void draw() {
    drawn = DrawnCircuit.draw(15, nodes, Math.max(2, nodes / 4));
    circuit = drawn.circuit();
  }

  /** A new circuit each time. */
  @Benchmark
  public Complex loopsAnew() {
    return drawn.circuit().solve().volts(0, 1);
  }

  /** One that is cleared and filled again. */
  @Benchmark
  public Complex loops() {
    drawn.fill(circuit);
    return circuit.solve().volts(0, 1);
  }

  /** Nodal equations, dense. */
  @Benchmark
  public Complex nodal() {
    dense.solve(drawn);
    return dense.volts(1);
  }
}
