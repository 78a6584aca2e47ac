package bellwire.app.survey;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.BoardModel.Noise;
import bellwire.analysis.survey.Plug;
import bellwire.board.BoardDescription;
import bellwire.board.BoardDescription.Value;
import bellwire.board.CodedPlug;

/** Hands the board's description to the analysis, which reads no files. */
public final class BoardModels {
  /** Half-width of the plug's temperature about 20 °C, common practice for indoors, no source. */
  private static final double PLUG_KELVIN = 15;

  private BoardModels() {}

  public static BoardModel of(BoardDescription board) {
    return new BoardModel(
        board.nominal("excitation-volts"),
        board.nominal("limiter-ohms"),
        board.nominal("low-reference-ohms"),
        relative(board.value("low-reference-ohms")),
        board.nominal("mid-reference-ohms"),
        relative(board.value("mid-reference-ohms")),
        board.nominal("high-reference-ohms"),
        relative(board.value("high-reference-ohms")),
        new BoardModel.Temperature(
            temperature(board, "low"), temperature(board, "mid"), temperature(board, "high")),
        new BoardModel.Stage(
            board.value("switch-ohms").tolerance(),
            board.nominal("feedback-diode-amps"),
            board.value("feedback-diode-amps").tolerance(),
            board.nominal("feedback-diode-volts")),
        board.nominal("relay-ohms") + board.nominal("switch-ohms"),
        board.nominal("divider-top-ohms") + board.nominal("divider-bottom-ohms"),
        1 + board.nominal("divider-top-ohms") / board.nominal("divider-bottom-ohms"),
        board.nominal("check-high-ohms"),
        board.nominal("check-low-ohms"),
        board.value("converter-gain-error").tolerance(),
        board.value("switch-leakage-amps").tolerance(),
        board.value("switch-leakage-per-volt").tolerance(),
        board.value("tap-leakage-amps").tolerance(),
        board.nominal("sense-tap-ohms"),
        board.nominal("converter-reference-volts"),
        board.nominal("port-stray-farads"),
        board.value("port-stray-farads").tolerance(),
        new Noise(
            board.nominal("converter-output-noise-volts"),
            board.nominal("converter-input-noise-volts")));
  }

  /** The plug by its nominal values; each arm within its tolerance of them. */
  public static Plug plug(CodedPlug plug) {
    double[] arms = new double[CodedPlug.POSITIONS];
    for (int p = 0; p < arms.length; p++) {
      arms[p] = plug.armOhms(p + 1);
    }
    return new Plug(arms, plug.tolerance(), plug.ppmPerKelvin() * 1e-6, PLUG_KELVIN);
  }

  private static double temperature(BoardDescription board, String range) {
    return board.value(range + "-reference-per-kelvin").tolerance()
        * board.value("board-kelvin").tolerance();
  }

  private static double relative(Value value) {
    return value.tolerance() / value.nominal();
  }
}
