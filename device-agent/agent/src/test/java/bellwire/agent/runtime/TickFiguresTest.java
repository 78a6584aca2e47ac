package bellwire.agent.runtime;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class TickFiguresTest {
  @Test
  void whatCameLateWasLongOrWasLeftOutIsCounted() {
    TickFigures figures = new TickFigures(1000);
    for (long due = 0; due < 1_000_000; due += 1000) {
      if (due != 500_000 && due != 501_000) {
        figures.step(due, due + (due == 499_000 ? 2400 : 7), due + (due == 499_000 ? 2500 : 60));
      }
    }
    assertThat(figures.steps()).isEqualTo(998);
    assertThat(figures.leftOut()).isEqualTo(2);
    assertThat(figures.latestMicros()).isBetween(2400L, 2430L); // two digits
    List<String> lines = figures.lines();
    assertThat(lines.get(0)).contains("1.0 s: 998 steps, 2 left out");
    assertThat(lines).anyMatch(line -> line.matches(" *10 us +997 +99\\.89980 %.*"));
    assertThat(lines).anyMatch(line -> line.matches(" *5000 us +1 +100\\.00000 % +0 +.*"));
  }

  @Test
  void recordingMakesNoObjects() {
    TickFigures figures = new TickFigures(1000);
    MemoryFigures memory = new MemoryFigures();
    figures.step(0, 1, 2);
    long before = memory.allocatedBytes();
    for (int i = 1; i < 100_000; i++) {
      figures.step(i, i + 1, i + 2);
    }
    assertThat(memory.allocatedBytes() - before).isLessThan(10_000);
  }
}
