package bellwire.analysis.uncertainty;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

/**
 * An uncertainty budget: independent contributions to one result, each with its distribution and
 * half-width or standard deviation already multiplied by its sensitivity coefficient. Combined by
 * the law of propagation (GUM 5.1.2) or by propagation of distributions (JCGM 101:2008, clause 7).
 * Theory (19) and (20).
 */
public final class Budget {

  /**
   * Distributions of JCGM 101:2008, Table 1. PRODUCT is that of two independent rectangular
   * factors.
   */
  public enum Shape {
    NORMAL,
    RECTANGULAR,
    PRODUCT
  }

  /**
   * One line of the budget.
   *
   * @param name what contributes
   * @param shape its distribution
   * @param size standard deviation of a NORMAL, half-width of the others, in the unit of the result
   */
  public record Line(String name, Shape shape, double size) {
    public double u() {
      return switch (shape) {
        case NORMAL -> size;
        case RECTANGULAR -> size / Math.sqrt(3);
        case PRODUCT -> size / 3;
      };
    }

    double draw(SplittableRandom random) {
      return switch (shape) {
        case NORMAL -> size * random.nextGaussian();
        case RECTANGULAR -> size * random.nextDouble(-1, 1);
        case PRODUCT -> size * random.nextDouble(-1, 1) * random.nextDouble(-1, 1);
      };
    }
  }

  private final List<Line> lines;

  private Budget(List<Line> lines) {
    this.lines = List.copyOf(lines);
  }

  public static Budget of(Line... lines) {
    return new Budget(Arrays.asList(lines));
  }

  public Budget and(Line line) {
    List<Line> more = new ArrayList<>(lines);
    more.add(line);
    return new Budget(more);
  }

  /** Combined standard uncertainty, GUM equation (10) with unit sensitivities. Theory (19). */
  public double u() {
    double sum = 0;
    for (Line line : lines) {
      sum += line.u() * line.u();
    }
    return Math.sqrt(sum);
  }

  /**
   * The share of errors inside ±{@code k}·u, by propagation of distributions. Theory (20).
   *
   * @param k coverage factor
   * @param trials Monte Carlo trials
   * @param seed of the generator
   */
  public double coverage(double k, int trials, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double limit = k * u();
    int inside = 0;
    for (int t = 0; t < trials; t++) {
      double error = 0;
      for (Line line : lines) {
        error += line.draw(random);
      }
      if (Math.abs(error) <= limit) {
        inside++;
      }
    }
    return (double) inside / trials;
  }
}
