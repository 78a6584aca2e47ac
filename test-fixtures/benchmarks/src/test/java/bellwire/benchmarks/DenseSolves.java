package bellwire.benchmarks;

import bellwire.analysis.network.Network;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.ojalgo.matrix.decomposition.Cholesky;
import org.ojalgo.matrix.store.MatrixStore;
import org.ojalgo.matrix.store.R064Store;
import org.ojalgo.matrix.store.RawStore;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * What the survey's inference does all the time: the voltages of a cable of sixteen conductors on a
 * plug, 33 nodes, by Cholesky's factors of its matrix of conductances and one right-hand side.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 7, time = 1)
public class DenseSolves {
  private static final long SEED = 9;

  private final Network cable = PluggedCable.drawn(new Random(SEED));
  private final double[] amps = PluggedCable.driven(0, 5);
  private final int n = cable.nodes();
  private final double[][] siemens = new double[n][n];
  private final DMatrixRMaj matrix = cable.laplacian();

  public DenseSolves() {
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        siemens[i][j] = matrix.get(i, j);
      }
    }
    double[] expected = cable.volts(amps);
    PluggedCable.same(expected, ours());
    PluggedCable.same(expected, hipparchus());
    PluggedCable.same(expected, ojAlgo());
  }

  @Benchmark
  public final double[] ours() {
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.symmPosDef(n);
    if (!solver.setA(matrix.copy())) {
      throw new IllegalStateException("nodes=" + n);
    }
    DMatrixRMaj volts = new DMatrixRMaj(n, 1);
    solver.solve(DMatrixRMaj.wrap(n, 1, amps.clone()), volts);
    return volts.data;
  }

  @Benchmark
  public final double[] hipparchus() {
    return new CholeskyDecomposition(MatrixUtils.createRealMatrix(siemens), 1e-9, 1e-15)
        .getSolver()
        .solve(new ArrayRealVector(amps, false))
        .toArray();
  }

  @Benchmark
  public final double[] ojAlgo() {
    Cholesky<Double> factors = Cholesky.R064.make(n, n);
    if (!factors.decompose(RawStore.wrap(siemens))) {
      throw new IllegalStateException("nodes=" + n);
    }
    MatrixStore<Double> volts = factors.getSolution(R064Store.FACTORY.column(amps));
    return volts.toRawCopy1D();
  }
}
