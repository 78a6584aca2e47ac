package bellwire.hardware.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * An uncertainty budget of independent inputs: combined standard uncertainty by JCGM 100:2008,
 * equation (10), effective degrees of freedom by (G.2b). Sensitivities are difference quotients
 * over each input's standard uncertainty to either side (5.1.3, note 2). Theory (125).
 */
public final class ErrorBudget {

  /**
   * @param sensitivity change of the result with the input
   * @param alone the same where the reading is not reversed and nothing subtracted
   */
  public record Line(Input input, double sensitivity, double alone) {
    /** Share of the result's standard uncertainty. */
    public double u() {
      return Math.abs(sensitivity) * input.u();
    }

    public double uAlone() {
      return Math.abs(alone) * input.u();
    }
  }

  private final double value;
  private final List<Line> lines;

  public ErrorBudget(double value, List<Line> lines) {
    this.value = value;
    this.lines = List.copyOf(lines);
  }

  /**
   * @param model the result by deviations of the inputs, by name; what is not named is zero
   * @param alone the model without reversal and subtraction
   */
  public static ErrorBudget of(
      List<Input> inputs,
      ToDoubleFunction<Map<String, Double>> model,
      ToDoubleFunction<Map<String, Double>> alone) {
    List<Line> lines = new ArrayList<>();
    for (Input input : inputs) {
      lines.add(new Line(input, slope(model, input), slope(alone, input)));
    }
    return new ErrorBudget(model.applyAsDouble(Map.of()), lines);
  }

  private static double slope(ToDoubleFunction<Map<String, Double>> model, Input input) {
    double step = input.u();
    if (step == 0) {
      return 0;
    }
    double above = model.applyAsDouble(Map.of(input.name(), step));
    double below = model.applyAsDouble(Map.of(input.name(), -step));
    return (above - below) / (2 * step);
  }

  public ErrorBudget and(List<Line> more) {
    List<Line> all = new ArrayList<>(lines);
    all.addAll(more);
    return new ErrorBudget(value, all);
  }

  /** What the model gives where every input is as it takes it to be. */
  public double value() {
    return value;
  }

  public List<Line> lines() {
    return lines;
  }

  public double u() {
    return Math.sqrt(lines.stream().mapToDouble(line -> line.u() * line.u()).sum());
  }

  /** Of a reading that is not reversed and from which nothing is subtracted. */
  public double uAlone() {
    return Math.sqrt(lines.stream().mapToDouble(line -> line.uAlone() * line.uAlone()).sum());
  }

  /** Welch and Satterthwaite; infinite where no input was observed. */
  public double effectiveDegreesOfFreedom() {
    double sum = 0;
    for (Line line : lines) {
      sum += Math.pow(line.u(), 4) / line.input().degreesOfFreedom();
    }
    return Math.pow(u(), 4) / sum;
  }

  /** Student's factor for the whole part of the degrees of freedom, as table G.2 is used. */
  public double coverageFactor(double probability) {
    double degrees = Math.min(1e6, Math.floor(effectiveDegreesOfFreedom()));
    return new TDistribution(degrees).inverseCumulativeProbability(0.5 + probability / 2);
  }

  /** Contribution of the inputs whose name begins so, root of the sum of squares. */
  public double u(String name) {
    return Math.sqrt(
        lines.stream()
            .filter(line -> line.input().name().startsWith(name))
            .mapToDouble(line -> line.u() * line.u())
            .sum());
  }
}
