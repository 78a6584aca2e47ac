package bellwire.simbench.pi4j;

import bellwire.agent.board.SensingBoard;
import bellwire.agent.pi.PiBoard;
import bellwire.agent.pi.PiTrouble;
import bellwire.board.BoardDescription;
import bellwire.simbench.chip.BoardChips;
import com.pi4j.Pi4J;
import com.pi4j.context.Context;

/** A Pi4J context whose buses and lines lead to simulated chips, and the agent's board on it. */
public final class SimulatedPi implements AutoCloseable {
  private static final PiBoard.Providers PROVIDERS =
      new PiBoard.Providers(SimulatedSpi.ID, SimulatedInput.ID, SimulatedOutput.ID);

  private final PiBoard board;
  private final SensingBoard sensingBoard;

  private SimulatedPi(PiBoard board, SensingBoard sensingBoard) {
    this.board = board;
    this.sensingBoard = sensingBoard;
  }

  /** Wires the production drivers to these chips. */
  public static SimulatedPi open(BoardChips chips, BoardDescription description) {
    Context context =
        Pi4J.newContextBuilder()
            .noAutoDetect()
            .disableShutdownHook()
            .add(
                new SimulatedSpi.Provider(chips, description),
                new SimulatedInput.Provider(chips, description),
                new SimulatedOutput.Provider(chips, description))
            .build();
    PiBoard board = PiBoard.open(context, description);
    try {
      return new SimulatedPi(board, board.sensingBoard(PROVIDERS));
    } catch (PiTrouble e) {
      throw new IllegalStateException(e);
    }
  }

  public SensingBoard sensingBoard() {
    return sensingBoard;
  }

  @Override
  public void close() {
    board.close();
  }
}
