package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.calls.CallInputs;
import bellwire.board.BoardDescription;
import org.junit.jupiter.api.Test;

/** The analysis knows the call-sense inputs as the board's own file has them. */
class CallInputsTest {
  @Test
  void theInputsAreThoseOfTheBoardsFile() {
    BoardDescription board = BoardDescription.revisionA();
    BoardDescription.Value threshold = board.value("call-threshold-volts");
    BoardDescription.Value delay = board.value("call-delay-micros");
    assertThat(CallInputs.REVISION_A)
        .isEqualTo(
            new CallInputs(
                threshold.nominal(),
                threshold.tolerance(),
                (int) (delay.nominal() + delay.tolerance())));
    assertThat(delay.nominal()).isEqualTo(delay.tolerance()); // from 0 on
  }
}
