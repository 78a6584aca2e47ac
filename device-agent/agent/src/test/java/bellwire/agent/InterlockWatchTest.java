package bellwire.agent;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.agent.board.BoardBus;
import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.link.Message.Interlock;
import org.junit.jupiter.api.Test;

class InterlockWatchTest {
  private final BoardBus bus = new BoardBus();
  private final SensingBoard board = bus.board();
  private final InterlockWatch watch = new InterlockWatch(board);

  private void read(long fromMicros, long toMicros) throws ChipTrouble {
    for (long now = fromMicros; now <= toMicros; now += 1000) {
      watch.read(now);
    }
  }

  @Test
  void nothingIsClearBeforeItWasRead() throws ChipTrouble {
    assertThat(watch.clear()).isFalse();
    assertThat(watch.tripped()).isTrue();
    assertThat(watch.outside()).isTrue();
    watch.read(0);
    assertThat(watch.clear()).isTrue();
  }

  @Test
  void eitherLineAloneIsNotClear() throws ChipTrouble {
    bus.high.add("tripped");
    watch.read(0);
    assertThat(watch.clear()).isFalse();
    assertThat(watch.outside()).isFalse();
    bus.high.remove("tripped");
    bus.high.add("outside");
    watch.read(1000);
    assertThat(watch.clear()).isFalse();
    assertThat(watch.tripped()).isFalse();
  }

  /** 100 ms of looks, from the first or from the last that may have been outside. */
  @Test
  void clearLongEnoughIsAHundredMilliseconds() throws ChipTrouble {
    read(0, 99_000);
    assertThat(watch.clearLongEnough(99_999)).isFalse();
    watch.read(100_000);
    assertThat(watch.clearLongEnough(100_000)).isTrue();
    bus.high.add("outside");
    watch.read(101_000);
    assertThat(watch.clearLongEnough(300_000)).isFalse();
    bus.high.remove("outside");
    read(102_000, 201_000); // outside until just before 102
    assertThat(watch.clearLongEnough(201_999)).isFalse();
    assertThat(watch.clearLongEnough(202_000)).isTrue();
  }

  /** Nobody looked for more than 20 ms: a cycle of the mains fits in. */
  @Test
  void aPauseInLookingStartsTheWaitAnew() throws ChipTrouble {
    read(0, 100_000);
    watch.read(120_000);
    assertThat(watch.clearLongEnough(120_000)).isTrue();
    watch.read(140_001);
    assertThat(watch.clearLongEnough(140_001)).isFalse();
    read(141_000, 240_000);
    assertThat(watch.clearLongEnough(240_000)).isFalse();
    assertThat(watch.clearLongEnough(240_001)).isTrue();
  }

  @Test
  void whereItCannotBeReadItCountsAsTripped() throws ChipTrouble {
    read(0, 100_000);
    bus.lineFails = true;
    assertThatThrownBy(() -> watch.read(101_000)).isInstanceOf(ChipTrouble.class);
    assertThat(watch.clear()).isFalse();
    assertThat(watch.tripped()).isTrue();
    bus.lineFails = false;
    watch.read(102_000);
    assertThat(watch.clear()).isTrue();
    assertThat(watch.clearLongEnough(201_999)).isFalse();
  }

  @Test
  void flagsAreReadAtAChangeAndThenEachFiftyMilliseconds() throws ChipTrouble {
    board.beginReset();
    bus.high.add("tripped");
    bus.pins[1] = 0x10;
    watch.read(0);
    watch.readFlags(0);
    assertThat(watch.state(0)).isEqualTo(new Interlock(true, true, 0x10));
    bus.pins[1] = 0x30;
    watch.read(49_000);
    watch.readFlags(49_999);
    assertThat(watch.state(49_000).flags()).isEqualTo(0x10);
    watch.readFlags(50_000);
    assertThat(watch.state(50_000).flags()).isEqualTo(0x30);
    bus.high.remove("tripped");
    bus.pins[1] = 0;
    watch.read(51_000);
    watch.readFlags(51_000);
    assertThat(watch.state(51_000).flags()).isZero();
    bus.pins[1] = 0x40; // clear, and told so: nobody looks
    watch.readFlags(500_000);
    assertThat(watch.state(500_000).flags()).isZero();
  }

  @Test
  void aChangeIsToldOnce() throws ChipTrouble {
    board.beginReset();
    assertThat(watch.changed(0)).isTrue();
    assertThat(watch.tell(0)).isEqualTo(new Interlock(true, true, 0));
    assertThat(watch.changed(0)).isFalse();
    read(0, 100_000);
    assertThat(watch.changed(100_000)).isTrue();
    assertThat(watch.tell(100_000)).isEqualTo(new Interlock(false, false, 0));
    assertThat(watch.changed(100_000)).isFalse();
    bus.high.add("outside");
    watch.read(101_000);
    assertThat(watch.changed(101_000)).isTrue();
    assertThat(watch.tell(101_000)).isEqualTo(new Interlock(false, true, 0));
    bus.pins[2] = 1;
    bus.high.add("tripped");
    watch.read(102_000);
    assertThat(watch.changed(102_000)).isTrue();
    watch.tell(102_000);
    watch.readFlags(102_000);
    assertThat(watch.changed(102_000)).isTrue();
    assertThat(watch.tell(102_000)).isEqualTo(new Interlock(true, true, 1 << 16));
    assertThat(watch.changed(102_000)).isFalse();
  }
}
