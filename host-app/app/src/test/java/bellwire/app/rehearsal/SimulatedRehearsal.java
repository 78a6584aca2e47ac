package bellwire.app.rehearsal;

import bellwire.app.bench.BenchTransport;
import bellwire.app.bench.WrappedLine;
import bellwire.app.link.AgentCalls;
import bellwire.app.link.Transport;
import bellwire.link.HostEndpoint;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.control.SimulatedControl;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.LongPredicate;
import java.util.function.UnaryOperator;

/** A whole rehearsal through the link: simulated control, chips, agent, line and host. */
final class SimulatedRehearsal {
  static final double CLOCK_PPM = 100;
  private static final int BAUD = 921_600;

  final List<String> notes = new ArrayList<>();
  private final Map<String, List<Long>> turns = new HashMap<>();
  private final Rehearsal rehearsal;
  private final Bench bench;
  private UnaryOperator<Transport> line = UnaryOperator.identity();
  private CallRecord record = CallRecord.NONE;
  private LongPredicate frozen = micros -> false;

  SimulatedRehearsal(Rehearsal rehearsal, String bench) throws FileException {
    this(rehearsal, BenchFile.parse("bench.yaml", bench));
  }

  SimulatedRehearsal(Rehearsal rehearsal, Bench bench) {
    this.rehearsal = rehearsal;
    this.bench = bench;
  }

  /** Puts something into the line between host and agent. */
  SimulatedRehearsal through(UnaryOperator<Transport> faultyLine) {
    line = faultyLine;
    return this;
  }

  SimulatedRehearsal recordedBy(CallRecord to) {
    record = to;
    return this;
  }

  /** Holds the agent up, as a hung program would, whenever this says so of the true time. */
  SimulatedRehearsal frozenWhile(LongPredicate heldUp) {
    frozen = heldUp;
    return this;
  }

  RehearsalOutcome run() throws Exception {
    SimulatedDevice device = new SimulatedDevice(bench);
    BenchTransport transport = BenchTransport.of(device);
    AgentCalls calls =
        new AgentCalls(
            line.apply(new Watched(transport, device)),
            HostEndpoint.Timing.forBaud(BAUD),
            true,
            record,
            () -> false,
            7,
            notes::add);
    try (calls) {
      return new RehearsalRun(
              rehearsal, Set.of(), calls, new ScriptOperator(transport), record, CLOCK_PPM)
          .run();
    }
  }

  /** Every pause between two calls of a terminal, in true time, seen every 2 ms. */
  List<Long> pauses(String terminal) {
    List<Long> pauses = new ArrayList<>();
    List<Long> own = turns.getOrDefault(terminal, List.of());
    for (int i = 1; i + 1 < own.size(); i += 2) {
      pauses.add(own.get(i + 1) - own.get(i));
    }
    return pauses;
  }

  /** The line, with an eye on the contacts themselves whenever time passes on it. */
  private final class Watched extends WrappedLine {
    private final SimulatedDevice device;

    Watched(BenchTransport line, SimulatedDevice device) {
      super(line);
      this.device = device;
    }

    @Override
    public void await(long micros) {
      device.freezeAgent(frozen.test(device.micros()));
      line.await(micros);
      SimulatedControl control = device.control().orElseThrow();
      for (String terminal : control.terminals()) {
        List<Long> own = turns.computeIfAbsent(terminal, t -> new ArrayList<>());
        if (control.closed(terminal, device.micros() * 1000) != (own.size() % 2 == 1)) {
          own.add(device.micros());
        }
      }
    }
  }
}
