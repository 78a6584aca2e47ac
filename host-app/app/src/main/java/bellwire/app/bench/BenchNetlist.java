package bellwire.app.bench;

import bellwire.app.bench.BenchTransport.BadBench;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.file.BenchFile;
import bellwire.simbench.spice.SpiceNetlist;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.nio.file.Path;

/** A bench's circuit as a SPICE netlist, for looking at it with another simulator. */
public final class BenchNetlist {
  private BenchNetlist() {}

  /**
   * The circuit with every relay open, at rest.
   *
   * @param seconds of the bench's time, which decides what is on the far end
   */
  public static String atRest(Path file, double seconds) throws BadBench {
    try {
      SimulatedCopper copper = new SimulatedCopper(BenchFile.read(file));
      long nanos = Math.round(seconds * 1e9);
      return SpiceNetlist.write(
          file.getFileName() + " at " + seconds + " s",
          copper.circuit(nanos),
          false,
          new SpiceNetlist.AtRest());
    } catch (FileException e) {
      throw new BadBench(String.valueOf(e.getMessage()));
    } catch (IOException e) {
      throw new BadBench(file + ": cannot be read: is the name right, and may you read it?");
    }
  }
}
