package bellwire.analysis.survey;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.network.Network;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Consumer;

/**
 * How long the host computes once all samples are there: sixteen conductors, with or without
 * bridges, from a first call in a fresh machine to the hundredth. Run it by itself for the first
 * call: everything but the phases' own readings is then new to the machine. Prints processor time
 * of the thread, which other load does not change.
 */
public final class HostTime {
  private static final double[] ARMS = {
    49.9, 90.9, 133, 174, 215, 255, 301, 348, 392, 432, 475, 523, 576, 619, 665, 715
  };
  private static final int STAR = Ports.COUNT + 16;
  private static final long SEED = 1;

  private final OpenPhase openPhase;
  private final Star coded;
  private final Star tie;

  private record Star(List<Integer> connected, StarPhase phase) {}

  HostTime(int bridges) {
    openPhase = new OpenPhase(IdealBoard.MODEL, (1 << Ports.COUNT) - 1, 0);
    board(bridges, null).run(openPhase);
    OpenResult open = openPhase.result();
    coded = star(open, board(bridges, ARMS));
    tie = star(open, board(bridges, new double[16]));
  }

  private static Star star(OpenResult open, IdealBoard board) {
    FarEndWatch watch = new FarEndWatch(IdealBoard.MODEL, open, 0);
    List<Integer> connected = watch.observe(board.measure(watch.round()), 0).connected();
    StarPhase phase = new StarPhase(IdealBoard.MODEL, connected, open, watch.lastOhms());
    board.run(phase);
    return new Star(connected, phase);
  }

  /** Sixteen conductors alike to 0.5 %; bridges from 1 kohm to 10 Mohm. */
  private static IdealBoard board(int bridges, double @org.jspecify.annotations.Nullable [] arms) {
    double[] farads = new double[Ports.COUNT];
    Arrays.fill(farads, 1.5e-9);
    Consumer<Network> copper =
        net -> {
          SplittableRandom random = new SplittableRandom(SEED);
          for (int i = 0; i < 16; i++) {
            double ohms = 0.5 * (1 + 0.005 * random.nextGaussian()) + 0.011;
            net.join(i, Ports.COUNT + i, 1 / ohms);
            if (arms != null) {
              net.join(Ports.COUNT + i, STAR, 1 / (arms[(5 * i + 3) % 16] + 0.011));
            }
          }
          for (int k = 0; k < bridges; k++) {
            int a = random.nextInt(16);
            int b = (a + 1 + random.nextInt(15)) % 16;
            net.join(a, b, Math.pow(10, -random.nextDouble(3, 7)));
          }
        };
    return new IdealBoard(17, farads, copper);
  }

  /** Milliseconds of both plugs' fits and of the verdicts, and what came of them. */
  record Times(double codedMillis, double tieMillis, double verdictMillis, SurveyResult result) {
    double sum() {
      return codedMillis + tieMillis + verdictMillis;
    }
  }

  Times evaluate() {
    long start = processorNanos();
    OpenResult open = openPhase.result();
    StarResult onCoded = StarResult.of(IdealBoard.MODEL, open, coded.connected(), coded.phase());
    long afterCoded = processorNanos();
    StarResult onTie = StarResult.of(IdealBoard.MODEL, open, tie.connected(), tie.phase());
    long afterTie = processorNanos();
    SurveyResult result =
        new SurveyAnalysis(
                IdealBoard.MODEL,
                Criteria.standard(),
                new Plug(ARMS, 1e-4, 5e-6, 15),
                new CableFacts(Gauge.awg(18), Double.NaN, 22, 4))
            .result(open, onCoded, List.of(onTie));
    long end = processorNanos();
    return new Times(
        (afterCoded - start) / 1e6, (afterTie - afterCoded) / 1e6, (end - afterTie) / 1e6, result);
  }

  private static long processorNanos() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  /**
   * @param args number of bridges, 0 where there is none
   */
  public static void main(String[] args) {
    int bridges = args.length == 0 ? 0 : Integer.parseInt(args[0]);
    HostTime survey = new HostTime(bridges);
    System.out.printf("bridges=%d  call  coded    tie  verdicts    sum (ms)%n", bridges);
    for (int call = 1; call <= 100; call++) {
      Times t = survey.evaluate();
      if (call == 1 || call == 2 || call == 10 || call == 100) {
        System.out.printf(
            "%15d %6.1f %6.1f %9.1f %6.1f%n",
            call, t.codedMillis(), t.tieMillis(), t.verdictMillis(), t.sum());
      }
    }
  }
}
