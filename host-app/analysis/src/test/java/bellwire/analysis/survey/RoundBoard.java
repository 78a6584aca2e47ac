package bellwire.analysis.survey;

import bellwire.analysis.survey.BoardModel.Noise;
import bellwire.analysis.survey.BoardModel.Stage;
import bellwire.analysis.survey.BoardModel.Temperature;

/** A board of round values, no two tolerances alike, to work a budget by hand with. */
final class RoundBoard {
  static final BoardModel MODEL =
      new BoardModel(
          2.0,
          766,
          100,
          1e-3,
          10_000,
          2e-3,
          1e6,
          3e-3,
          new Temperature(4e-4, 5e-4, 6e-4),
          new Stage(30, 2e-9, 3e-9, 0.05),
          15,
          1e6,
          51,
          1e7,
          1e3,
          1e-4,
          1e-9,
          0.2,
          1e-9,
          20_000,
          2.5,
          15e-12,
          5e-12,
          new Noise(2e-6, 1e-7));

  private RoundBoard() {}
}
