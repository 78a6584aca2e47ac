package bellwire.app.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bellwire.analysis.logic.Verdict;
import bellwire.analysis.rules.Ruling;
import bellwire.app.bench.WrappedLine;
import bellwire.app.link.Transport;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Five minutes of compressor rest, really waited for in virtual time, on a device whose clock is
 * off by up to 100 ppm and over a line that loses frames: the verdict is right or undecided.
 */
final class CompressorRestTest {
  private static final String REHEARSAL =
      """
      bellwire-rehearsal: 1
      title: The compressor's rest alone
      feed: ac
      terminals:
        W1: {role: heat}
        Y1: {role: compressor}
        G: {role: fan}
      times:
        call: {is: 10 s, basis: "common practice, no source"}
        drop-out: {is: 5 s, basis: "common practice, no source"}
        rest: {is: 5 min, basis: "common practice, no source"}
        restart: {is: 6 min, basis: "common practice, no source"}
      steps:
        - {step: cool, say: Cool., do: {mode: cool, set: -1}, asks: {Y1: restart, G: restart}, stay: 3 s}
        - {step: off, say: Off., do: {set: 1}, free: [G], stay: 1 s}
        - {step: again, say: Again., do: {set: -1}, asks: {Y1: restart, G: restart}, stay: 3 s}
      rules:
        - name: rest
          says: The compressor rests five minutes.
          lasts: not Y1
          at-least: rest
      """;

  /** The contact is looked at every two milliseconds of the line's time. */
  private static final long SEEN_MICROS = 4_000;

  /** Half of an AC cycle for each edge, and 100 ppm of five minutes. */
  private static final long DOUBT_MICROS = 100_000;

  private static String bench(long restMicros, double driftPpm, long seed) {
    return """
        bellwire-bench: 1
        seed: %d
        board: {clock-drift: %s ppm}
        control:
          kind: furnace-cooling
          rest: %s ms
          response: 700 ms
          drop-out: 300 ms
          fan-lead: 0 s
          contacts: relay
          power: battery
        """
        .formatted(seed, driftPpm, restMicros / 1000.0);
  }

  @ParameterizedTest
  @CsvSource({
    "-500000, 100",
    "-500000, -100",
    "-60000, 100",
    "-60000, -100",
    "-25000, 0",
    "25000, 0",
    "60000, 100",
    "60000, -100",
    "500000, 100",
    "500000, -100"
  })
  void theVerdictIsRightOrUndecided(long offMicros, double driftPpm) throws Exception {
    long seed = 77 + offMicros / 1000 + (long) driftPpm;
    Rehearsal rehearsal = RehearsalFile.parse("rest.yaml", REHEARSAL, Map.of());
    SimulatedRehearsal run =
        new SimulatedRehearsal(rehearsal, bench(300_000_000 + offMicros, driftPpm, seed))
            .through(line -> new LossyLine(line, new SplittableRandom(seed), 0.02));
    RehearsalOutcome outcome = run.run();
    long trueOff = run.pauses("Y1").get(0) - 300_000_000;
    Ruling rest =
        outcome.rulings().stream().filter(r -> r.rule().name().equals("rest")).findFirst().get();
    System.out.println(
        "rest off by "
            + trueOff / 1000.0
            + " ms, clock "
            + driftPpm
            + " ppm, seed="
            + seed
            + ": "
            + rest.verdict()
            + " "
            + rest.marginMicros());
    assertEquals(1, rest.occasions());
    if (trueOff < -SEEN_MICROS) {
      assertNotEquals(Verdict.KEPT, rest.verdict());
    } else if (trueOff > SEEN_MICROS) {
      assertNotEquals(Verdict.BROKEN, rest.verdict());
    }
    if (Math.abs(trueOff) > DOUBT_MICROS) {
      assertNotEquals(Verdict.UNDECIDED, rest.verdict());
    }
    assertTrue(outcome.sampling().samples() > 300_000);
  }

  /** Loses or garbles a share of what is read and written, and is cut for some seconds at times. */
  static final class LossyLine extends WrappedLine {
    private final SplittableRandom random;
    private final double share;
    private final byte[] scrap = new byte[4096];
    private long cutUntilMicros;
    private long nextCutMicros = 20_000_000;

    LossyLine(Transport line, SplittableRandom random, double share) {
      super(line);
      this.random = random;
      this.share = share;
    }

    private boolean cut() {
      long now = line.nowMicros();
      if (now >= nextCutMicros) {
        cutUntilMicros = now + random.nextLong(8_000_000);
        nextCutMicros = now + random.nextLong(30_000_000, 90_000_000);
      }
      return now < cutUntilMicros;
    }

    @Override
    public int read(byte[] into) {
      if (cut()) {
        while (line.read(scrap) > 0) {
          // lost
        }
        return 0;
      }
      int got = line.read(into);
      if (got > 0 && random.nextDouble() < share) {
        into[random.nextInt(got)] ^= 0x10;
      }
      return got;
    }

    @Override
    public void write(byte[] bytes, int off, int len) {
      if (!cut() && random.nextDouble() >= share) {
        line.write(bytes, off, len);
      }
    }
  }
}
