package bellwire.hardware.deck;
import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import java.nio.file.*;
public class TryReadings {
  public static void main(String[] a) throws Exception {
    Path d = Path.of("/tmp/w/notes-try"); Files.createDirectories(d);
    long t=System.nanoTime();
    var r = new BenchReadings(Netlist.revisionA(), BoardDescription.revisionA(), 1).run(d, Integer.parseInt(a[0]));
    r.forEach((k,v)->System.out.printf("%-22s %-10s %10.6f %10.6f %10.6f%n",k.state(),k.place(),v.nominal(),v.lowest(),v.highest()));
    System.out.println((System.nanoTime()-t)/1e9);
  }
}
