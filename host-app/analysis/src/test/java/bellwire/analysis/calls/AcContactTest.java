package bellwire.analysis.calls;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * What words, a millisecond apart, each read within 40 µs and shown up to 50 µs late, tell of one
 * contact; reckoned by hand from docs/theory.md (53) to (55). The widest gap of a call is 0.4 half
 * periods: 4.444 ms at 45 Hz, which counts until the half period is known.
 */
class AcContactTest implements AcContact.Events {
  private static final int DELAY = 50;
  private static final int TOOK = 40;

  private final List<String> told = new ArrayList<>();
  private final SampleTimes times = new SampleTimes();
  private final AcContact contact = new AcContact(times, DELAY, this);
  private int last = -1;

  @Override
  public void closed(long earliestMicros, long latestMicros) {
    told.add("closed " + earliestMicros + " " + latestMicros);
  }

  @Override
  public void opened(long earliestMicros, long latestMicros) {
    told.add("opened " + earliestMicros + " " + latestMicros);
  }

  @Override
  public void gap(long beforeMicros, long firstMicros, long lastMicros, long afterMicros) {
    told.add("gap " + beforeMicros + " " + firstMicros + " " + lastMicros + " " + afterMicros);
  }

  @Override
  public void run(long beforeMicros, long firstMicros, long lastMicros, long afterMicros) {
    told.add("run " + beforeMicros + " " + firstMicros + " " + lastMicros + " " + afterMicros);
  }

  private void at(long micros, int bit) {
    long before = times.latest() < 0 ? micros : times.begin(times.latest());
    times.add(micros, micros + TOOK);
    if (bit == last) {
      if (micros + TOOK - before > AcContact.DENSE_MICROS) {
        contact.sparse();
      }
      contact.prove();
    } else {
      last = bit;
      contact.changed(bit == 1);
    }
  }

  /** Bits from a moment on, a millisecond each. */
  private void bits(long fromMicros, String bits) {
    for (int i = 0; i < bits.length(); i++) {
      at(fromMicros + 1_000L * i, bits.charAt(i) - '0');
    }
  }

  @Test
  void zerosProveAnOpenContactOnceTheyLastLongerThanACallsGap() {
    contact.restart(-DELAY);
    at(0, 0);
    // 40 read by, 50 late, 4,444 of gap.
    assertThat(contact.attendMicros()).isEqualTo(4_534);
    at(2_000, 0);
    at(4_534, 0);
    assertThat(contact.open()).isFalse();
    at(4_535, 0);
    assertThat(contact.open()).isTrue();
    assertThat(told).containsExactly("opened -50 4575");
    at(6_000, 0);
    assertThat(told).as("told once").hasSize(1);
    assertThat(contact.attendMicros()).isEqualTo(AcContact.NEVER);
  }

  @Test
  void aClosingLiesBehindTheLastMomentThatZerosProveOpen() {
    contact.restart(-DELAY);
    bits(0, "0".repeat(20) + "1");
    // Had it been closed by 14.000, a one would have shown by 14.040 + 4.444 + 0.050.
    assertThat(told).containsExactly("opened -50 5040", "closed 13950 20040");
    assertThat(contact.open()).isFalse();
    assertThat(contact.runFirst()).isEqualTo(20_000);
  }

  @Test
  void aKnownHalfPeriodNarrowsIt() {
    contact.restart(-DELAY);
    contact.halfPeriod(8_333); // 0.4 of it and 2 % are 3,400
    bits(0, "0".repeat(20) + "1");
    assertThat(told).containsExactly("opened -50 4040", "closed 14950 20040");
  }

  @Test
  void gapsAndRunsOfAClosedContact() {
    contact.restart(-DELAY);
    bits(0, "1110011111001");
    assertThat(told)
        .containsExactly(
            "closed -50 40",
            "run 0 0 2000 3000",
            "gap 2000 3000 4000 5000",
            "run 4000 5000 9000 10000",
            "gap 9000 10000 11000 12000");
    assertThat(contact.lastOneBegin()).isEqualTo(9_000);
    assertThat(contact.lastOneEnd()).isEqualTo(9_040);
  }

  @Test
  void anOpeningLiesBetweenTheLastOneAndTheZeroThatProvesIt() {
    contact.restart(-DELAY);
    bits(0, "111" + "0".repeat(8));
    // The first zero's 3.040, 4.444 of gap and 50: the sample at 8 ms proves it.
    assertThat(told).containsExactly("closed -50 40", "run 0 0 2000 3000", "opened 1950 8040");
    bits(11_000, "1");
    assertThat(told.get(3)).isEqualTo("closed 4950 11040");
  }

  /** Only zeros that follow the last one say that it was open. */
  @Test
  void beforeTheLastOneNothingIsProvedOpen() {
    contact.restart(-DELAY);
    bits(0, "0".repeat(9) + "1" + "0".repeat(6) + "1");
    assertThat(told)
        .containsExactly(
            "opened -50 5040",
            "closed 2950 9040",
            "run 8000 9000 9000 10000",
            "opened 8950 15040",
            "closed 9950 16040");
  }

  /** Between samples further apart a whole conduction may have been missed. */
  @Test
  void samplesFarApartProveNothing() {
    contact.restart(-DELAY);
    bits(0, "11");
    for (long t = 8_000; t < 80_000; t += 8_000) {
      at(t, 0);
      assertThat(contact.open()).as("micros=" + t).isFalse();
      assertThat(contact.attendMicros()).isEqualTo(t + TOOK + 4_444 + DELAY);
    }
    bits(80_000, "1");
    assertThat(told)
        .containsExactly("closed -50 40", "run 0 0 1000 8000", "gap 1000 8000 72000 80000");
  }

  @Test
  void whatSamplesFarApartLeaveOpenReachesBackToWhereTheyWereClose() {
    contact.restart(-DELAY);
    bits(0, "1" + "0".repeat(11));
    at(17_000, 0);
    at(23_000, 0);
    at(24_000, 1);
    // Close ones up to 11 ms prove it open at 6 ms, those behind prove nothing.
    assertThat(told.get(told.size() - 1)).isEqualTo("closed 5950 24040");
  }

  @Test
  void whatIsForgottenReachesBackToTheFirstZero() {
    contact.restart(-DELAY);
    bits(0, "1" + "0".repeat(11));
    long t = 17_000;
    for (int i = 0; i < SampleTimes.KEPT; i++, t += 6_000) {
      at(t, 0);
    }
    at(t, 1);
    assertThat(told.get(told.size() - 1)).isEqualTo("closed 950 " + (t + TOOK));
  }

  @Test
  void nothingLiesBeforeARestart() {
    contact.restart(-DELAY);
    bits(0, "1" + "0".repeat(9));
    told.clear();
    last = -1;
    times.clear();
    contact.restart(70_000);
    assertThat(contact.open()).isFalse();
    assertThat(contact.attendMicros()).isEqualTo(AcContact.NEVER);
    bits(70_020, "0".repeat(6) + "1");
    assertThat(told).containsExactly("opened 70000 75060", "closed 70000 76060");
  }
}
