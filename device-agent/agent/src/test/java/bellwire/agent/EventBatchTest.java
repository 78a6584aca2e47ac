package bellwire.agent;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Message;
import bellwire.link.Message.EventSamples;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Two patterns in turn, a tick of 1 ms. */
class EventBatchTest {
  private final List<EventSamples> sent = new ArrayList<>();
  private final EventBatch batch = new EventBatch(9, 1000, 2, new Taking());

  private final class Taking implements HostLink {
    @Override
    public void step(long nowMicros) {}

    @Override
    public Message.FromHost poll() {
      return null;
    }

    @Override
    public void send(Message.Data message, long nowMicros) {
      sent.add((EventSamples) message);
    }

    @Override
    public void reply(Message.FromAgent answer) {}

    @Override
    public boolean hostPresent() {
      return true;
    }

    @Override
    public void recording(boolean on) {}

    @Override
    public long diskBytes() {
      return 0;
    }

    @Override
    public void selfCheck(String state) {}
  }

  private EventSamples flushed() {
    batch.flush(0);
    return sent.get(sent.size() - 1);
  }

  @Test
  void readingsAlikeInTheirTurnAreOneRun() {
    for (int k = 0; k < 6; k++) {
      batch.add(1000 * k, 0, 0, k % 2);
    }
    EventSamples run = flushed();
    assertThat(run.vigil()).isEqualTo(9);
    assertThat(run.firstMicros()).isZero();
    assertThat(run.ticks()).containsExactly(6);
    assertThat(run.code()).containsExactly(0);
  }

  @Test
  void anyDifferenceBeginsAnother() {
    batch.add(0, 0, 0, 0);
    batch.add(1000, 4, 4, 1);
    batch.add(2000, 4, 4, 0);
    batch.add(3000, 4, 6, 1); // another latch
    batch.add(4000, 4, 6, 1); // not that pattern's turn
    EventSamples runs = flushed();
    assertThat(runs.ticks()).containsExactly(1, 2, 1, 1);
    assertThat(runs.deltaMicros()).containsExactly(0, 1000, 2000, 1000);
    assertThat(runs.word()).containsExactly(0, 4, 4, 4);
    assertThat(runs.latched()).containsExactly(0, 4, 6, 6);
    assertThat(runs.code()).containsExactly(0, 1, 1, 1);
  }

  /** Places are counted from the run's first: half a tick from one's place is still in it. */
  @Test
  void aReadingIsOfItsRunWithinHalfATick() {
    batch.add(10_000, 0, 0, 0);
    assertThat(batch.place(11_500, 0, 0, 1)).isEqualTo(11_000);
    assertThat(batch.place(10_500, 0, 0, 1)).isEqualTo(11_000);
    assertThat(batch.place(11_501, 0, 0, 1)).isEqualTo(11_501);
    assertThat(batch.place(10_499, 0, 0, 1)).isEqualTo(10_499);
    assertThat(batch.place(11_000, 1, 0, 1)).isEqualTo(11_000);
    batch.add(11_400, 0, 0, 1);
    batch.add(12_600, 0, 0, 0); // 1.2 ms later, 0.6 ms from its place
    assertThat(flushed().ticks()).containsExactly(2, 1);
  }

  @Test
  void itIsDueEachSecondAndSoonerWhereSomethingWasWrong() {
    assertThat(batch.due(Long.MAX_VALUE - 1)).isFalse();
    batch.add(5000, 0, 0, 0);
    assertThat(batch.due(1_004_999)).isFalse();
    assertThat(batch.due(1_005_000)).isTrue();
    batch.add(6000, 1, 1, 1);
    assertThat(batch.due(255_999)).isFalse();
    assertThat(batch.due(256_000)).isTrue();
    batch.add(7000, 2, 2, 0); // the first wrong one's quarter of a second counts
    assertThat(batch.due(256_000)).isTrue();
    batch.flush(0);
    assertThat(batch.due(Long.MAX_VALUE - 1)).isFalse();
  }

  @Test
  void itIsDueWhenItIsFull() {
    for (int k = 0; k < EventBatch.MOST; k++) {
      assertThat(batch.full()).isFalse();
      batch.add(1000 * k, 1 + k % 2, 0, 0);
    }
    assertThat(batch.full()).isTrue();
    assertThat(batch.due(0)).isTrue();
  }

  /** A count has 16 bits. */
  @Test
  void aLongRunGoesOnInAnother() {
    for (int k = 0; k < 65_536; k++) {
      batch.add(1000L * k, 0, 0, k % 2);
    }
    assertThat(flushed().ticks()).containsExactly(65_535, 1);
  }

  /** A chip that no longer listens reads as zeros: nothing wrong. */
  @Test
  void whatWasNotProvedIsForgotten() {
    batch.add(0, 0, 0, 0);
    batch.add(1000, 0, 0, 1);
    batch.proved();
    batch.add(2000, 0, 0, 0);
    batch.add(3000, 1, 1, 1);
    batch.dropUnproved();
    EventSamples kept = flushed();
    assertThat(kept.ticks()).containsExactly(2);
    assertThat(kept.word()).containsExactly(0);
    batch.add(4000, 0, 0, 0);
    batch.dropUnproved(); // nothing was proved since the flush
    int before = sent.size();
    batch.flush(0);
    assertThat(sent).hasSize(before);
  }
}
