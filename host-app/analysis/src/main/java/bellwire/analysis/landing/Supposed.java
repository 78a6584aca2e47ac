package bellwire.analysis.landing;

import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Simulation;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A hypothesis that was simulated: its symptoms, and once asked for what each step would find. */
final class Supposed {
  private final Hypothesis hypothesis;
  private final Installation installation;
  private final Symptoms symptoms;
  private short @Nullable [] codes;
  private long hazards;

  Supposed(Hypothesis hypothesis, Installation installation, Symptoms symptoms) {
    this.hypothesis = hypothesis;
    this.installation = installation;
    this.symptoms = symptoms;
  }

  Hypothesis hypothesis() {
    return hypothesis;
  }

  Symptoms symptoms() {
    return symptoms;
  }

  /** Code of each step, in their order. */
  short[] codes(List<Step> steps) {
    short[] known = codes;
    if (known == null) {
      Case c = new Case(installation, new Simulation(installation), symptoms);
      known = new short[steps.size()];
      for (int k = 0; k < known.length; k++) {
        known[k] = (short) steps.get(k).code(c);
      }
      codes = known;
      List<State> states = installation.control().states();
      for (int k = 0; k < states.size(); k++) {
        hazards |= c.hazardous(states.get(k)) ? 1L << k : 0;
      }
      hazards |= c.hazardousLifted() ? Trials.LIFTED : 0;
    }
    return known;
  }

  /**
   * Whether one of the states, as in {@link Trials}, may open a fuse or heats a transformer; after
   * its codes.
   */
  boolean hazardous(long states) {
    return (hazards & states) != 0;
  }

  /** Whether neither symptoms nor any step tells the two apart. */
  boolean alike(Supposed other, List<Step> steps) {
    return symptoms.equals(other.symptoms) && Arrays.equals(codes(steps), other.codes(steps));
  }
}
