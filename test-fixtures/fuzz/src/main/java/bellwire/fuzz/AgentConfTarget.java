package bellwire.fuzz;

import bellwire.agent.AgentConfiguration;
import java.io.IOException;
import java.nio.file.Path;

/** The agent's configuration. */
final class AgentConfTarget implements Target {
  private final Scratch scratch = new Scratch("conf");

  @Override
  public void take(byte[] input) throws IOException {
    Path file = scratch.file("agent.conf", input);
    try {
      AgentConfiguration taken = AgentConfiguration.read(file);
      Finding.unless(
          taken.baud() >= 9600 && taken.tickMicros() >= 500, "out of its bounds: %s", taken);
    } catch (AgentConfiguration.Unusable e) {
      Refusals.check(e, file.toString());
    }
  }
}
