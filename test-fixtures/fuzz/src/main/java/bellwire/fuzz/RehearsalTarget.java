package bellwire.fuzz;

import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.util.Map;

/** Rehearsal files with their rules, whose contradictions are looked for. */
final class RehearsalTarget implements Target {
  private final Scratch scratch = new Scratch("rehearsal");

  @Override
  public void take(byte[] input) throws IOException {
    try {
      Rehearsal rehearsal = RehearsalFile.read(scratch.file("own.yaml", input), Map.of());
      Finding.unless(!rehearsal.steps().isEmpty(), "nothing to rehearse");
    } catch (FileException e) {
      Refusals.check(e, input);
    }
  }
}
