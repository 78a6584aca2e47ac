package bellwire.agent;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.agent.board.BoardBus;
import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A timeout of 50 ms, five edges in each. */
class HeartbeatTest {
  private final BoardBus bus = new BoardBus();
  private final SensingBoard board = bus.board();
  private long now;
  private long took;
  private final Heartbeat heartbeat = new Heartbeat(board, () -> now + took, 50_000);

  @BeforeEach
  void reset() throws ChipTrouble {
    board.beginReset();
  }

  private boolean edge(long nowMicros, boolean clear) throws ChipTrouble {
    Boolean before = bus.outputs.get("heartbeat");
    now = nowMicros;
    heartbeat.step(nowMicros, clear);
    Boolean after = bus.outputs.get("heartbeat");
    return after != null && !after.equals(before);
  }

  @Test
  void noEdgeWithoutRelaysWantedNorWhileNotClear() throws ChipTrouble {
    assertThat(edge(0, true)).isFalse();
    board.connect();
    assertThat(edge(1000, false)).isFalse();
    assertThat(edge(2000, true)).isTrue();
    assertThat(edge(50_000, false)).isFalse();
    board.disconnect();
    assertThat(edge(60_000, true)).isFalse();
  }

  @Test
  void anEdgeEachTenMilliseconds() throws ChipTrouble {
    board.connect();
    assertThat(edge(0, true)).isTrue();
    assertThat(edge(9_999, true)).isFalse();
    assertThat(edge(10_000, true)).isTrue();
    assertThat(edge(19_999, true)).isFalse();
    assertThat(edge(20_000, true)).isTrue();
  }

  /** The edge before counts from its step's beginning: the relays may have had it that early. */
  @Test
  void relaysAreDroppedAfterFiftyMillisecondsWithoutAnEdge() throws ChipTrouble {
    board.connect();
    edge(0, true);
    assertThat(heartbeat.dropped(50_000)).isFalse();
    assertThat(heartbeat.dropped(50_001)).isTrue();
    edge(50_001, true);
    assertThat(heartbeat.dropped(51_000)).isTrue(); // and that edge came too late
    assertThat(heartbeat.dropped(51_000)).isFalse();
  }

  @Test
  void anEdgeLateWithinItsStepDropsTheRelaysToo() throws ChipTrouble {
    board.connect();
    edge(0, true);
    took = 40_001;
    assertThat(edge(10_000, true)).isTrue();
    assertThat(heartbeat.dropped(10_000)).isTrue();
    took = 40_000;
    assertThat(edge(20_000, true)).isTrue();
    assertThat(heartbeat.dropped(20_000)).isFalse();
  }

  @Test
  void relaysStayedUntilTheLastEdgeInTime() throws ChipTrouble {
    board.connect();
    assertThat(heartbeat.stayedMicros()).isEqualTo(Long.MIN_VALUE);
    edge(0, true);
    assertThat(heartbeat.stayedMicros()).isEqualTo(Long.MIN_VALUE); // closing at the earliest
    took = 7;
    edge(10_000, true);
    assertThat(heartbeat.stayedMicros()).isEqualTo(10_007);
    edge(61_000, true);
    assertThat(heartbeat.stayedMicros()).isEqualTo(10_007);
    edge(71_000, true);
    assertThat(heartbeat.stayedMicros()).isEqualTo(71_007);
  }

  @Test
  void relaysLetGoOnPurposeWereNotDropped() throws ChipTrouble {
    board.connect();
    edge(0, true);
    edge(60_000, true);
    board.disconnect();
    edge(61_000, true);
    assertThat(heartbeat.dropped(500_000)).isFalse();
    board.connect();
    assertThat(edge(62_000, true)).isTrue(); // at once
  }
}
