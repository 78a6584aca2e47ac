package bellwire.hardware;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import org.junit.jupiter.api.Test;

class NetlistRulesTest {
  private final Netlist netlist = Netlist.revisionA();
  private final BoardDescription board = BoardDescription.revisionA();

  @Test
  void theBoardKeepsTheRules() {
    assertThat(NetlistRules.breaches(netlist, PartsList.revisionA(), board)).isEmpty();
  }
}
