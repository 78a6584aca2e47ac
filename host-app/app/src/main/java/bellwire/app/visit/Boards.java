package bellwire.app.visit;

import bellwire.app.bench.BenchTransport;
import bellwire.app.link.Transport;
import bellwire.app.rehearsal.Hands;
import bellwire.app.serial.SerialTransport;
import bellwire.app.survey.InstrumentTrouble;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/** Where the board is: at a serial device, or simulated. */
public sealed interface Boards {
  /** The line rate of a serial device where none is given. */
  int BAUD = 921_600;

  /** What it is wanted for; the simulated bench of the demo differs by that. */
  enum Use {
    SURVEY,
    SURVEY_IN_PLACE,
    REHEARSAL,
    VIGIL
  }

  /**
   * @throws InstrumentTrouble with a sentence for people, of a bench file too
   */
  Transport open(Use use) throws InstrumentTrouble;

  /** For people: 'the board at /dev/ttyACM0'. */
  String words();

  /** Whether nothing is connected and nobody can be hurt. */
  default boolean simulated() {
    return true;
  }

  default int baud() {
    return BAUD;
  }

  /** Who works a simulated control by itself; null where a person does. */
  static @Nullable Hands hands(Transport transport) {
    return transport instanceof BenchTransport bench && bench.hasControl() ? bench : null;
  }

  /** A real board. */
  record Serial(String device, int baud) implements Boards {
    @Override
    public Transport open(Use use) throws InstrumentTrouble {
      return SerialTransport.open(device, baud);
    }

    @Override
    public String words() {
      return "the board at " + device;
    }

    @Override
    public boolean simulated() {
      return false;
    }
  }

  /** A simulated bench from a file. */
  record Bench(Path file, BenchTransport.Pace pace) implements Boards {
    @Override
    public Transport open(Use use) throws InstrumentTrouble {
      try {
        BenchTransport bench = BenchTransport.open(file, pace);
        if (use == Use.REHEARSAL && !bench.hasControl()) {
          bench.close();
          throw new InstrumentTrouble(
              file + ": no control on this bench; add 'control: ...', see bench-files.md");
        }
        return bench;
      } catch (BenchTransport.BadBench e) {
        throw new InstrumentTrouble(String.valueOf(e.getMessage()));
      }
    }

    @Override
    public String words() {
      return "the simulated bench " + file.getFileName();
    }
  }

  /**
   * The demo's house: one simulated bench for each use.
   *
   * @param watched slow enough for a person to follow; else as fast as it can be computed
   */
  record Demo(boolean watched) implements Boards {
    private static final double SURVEY_SPEED = 20;
    private static final double REHEARSAL_SPEED = 40;
    private static final double VIGIL_SPEED = 1200;

    @Override
    public Transport open(Use use) throws InstrumentTrouble {
      return switch (use) {
        case SURVEY -> bench("demo", SURVEY_SPEED);
        case SURVEY_IN_PLACE -> bench("demo-in-place", SURVEY_SPEED);
        case REHEARSAL -> bench("demo-control", REHEARSAL_SPEED);
        case VIGIL -> bench("demo-vigil", VIGIL_SPEED);
      };
    }

    private Transport bench(String name, double speed) throws InstrumentTrouble {
      try {
        return BenchTransport.builtIn(name, watched ? speed : BenchTransport.Pace.FAST.speed());
      } catch (BenchTransport.BadBench e) {
        throw new InstrumentTrouble(String.valueOf(e.getMessage()));
      }
    }

    @Override
    public String words() {
      return "the demo's simulated bench";
    }
  }
}
