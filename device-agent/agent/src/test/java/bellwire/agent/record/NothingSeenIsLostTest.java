package bellwire.agent.record;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A stream as a vigil's, some two frames a second, of which memory holds 40; the line is cut, the
 * host is killed, the agent loses its power, at random points, for up to a minute. The host
 * acknowledges what it has stored, once a second. Every frame is stored once and in order, or told
 * as lost; only what was not yet on the agent's disk when that lost its power may be missing.
 */
class NothingSeenIsLostTest {
  private static final int CUTS = Integer.getInteger("bellwire.cuts", 20);
  private static final long SEED = Long.getLong("bellwire.seed", 11);

  enum Harm {
    LINK_CUTS,
    HOST_KILLS,
    AGENT_RESTARTS,
    AGENT_KILLS,
    VISITS,
    ALL,
    ALL_ON_A_SMALL_DISK
  }

  @TempDir Path directory;

  @ParameterizedTest
  @EnumSource
  void everyFrameIsStoredOnceOrToldAsLost(Harm harm) throws IOException {
    boolean small = harm == Harm.ALL_ON_A_SMALL_DISK;
    WatchBench bench =
        new WatchBench(
            Files.createDirectories(directory.resolve("record")),
            SEED,
            small ? RecordSettings.LEAST_BYTES : 64 << 20,
            40);
    bench.line.changed = harm == Harm.ALL || small ? 0.02 : 0;
    int strikes = small ? (CUTS + 3) / 4 : CUTS;
    for (int i = 0; i < strikes; i++) {
      bench.run(bench.random.nextInt(20_000_000));
      if (harm == Harm.ALL || small) {
        bench.line.cut(i % 3 > 0);
        bench.run(bench.random.nextInt(small ? 400_000_000 : 30_000_000));
        strike(bench, Harm.values()[bench.random.nextInt(4)]);
        bench.run(bench.random.nextInt(20_000_000));
        bench.line.cut(false);
      } else {
        strike(bench, harm);
      }
    }
    bench.finish(600_000_000);
    WatchBench.Account account = bench.account();
    System.out.printf(
        Locale.ROOT,
        "%-20s seed=%d strikes=%d boots=%d made=%d stored=%d different=%d twice=%d out-of-order=%d"
            + " told-lost=%d not-yet-on-disk=%d missing=%d; sent again=%d had before=%d%n",
        harm,
        SEED,
        strikes,
        bench.made.size(),
        account.made(),
        account.stored(),
        account.different(),
        bench.store.twice,
        bench.store.outOfOrder,
        account.lost(),
        account.unsafe(),
        account.missing(),
        bench.resent,
        bench.duplicates);
    assertThat(account.missing()).isZero();
    assertThat(account.different() + account.both()).isZero();
    assertThat(bench.store.twice + bench.store.outOfOrder).isZero();
    assertThat(account.stored() + account.lost() + account.unsafe()).isEqualTo(account.made());
    assertThat(bench.visitorsFrames > 0).isEqualTo(harm == Harm.VISITS);
    assertThat(account.lost() > 0).isEqualTo(small);
    boolean killed = bench.made.size() > 1 && harm != Harm.AGENT_RESTARTS && harm != Harm.VISITS;
    assertThat(account.unsafe()).isLessThanOrEqualTo(killed ? 3L * CUTS : 0);
  }

  private static void strike(WatchBench bench, Harm harm) {
    switch (harm) {
      case LINK_CUTS -> {
        bench.line.cut(true);
        bench.run(100_000 + bench.random.nextInt(60_000_000));
        bench.line.cut(false);
      }
      case HOST_KILLS -> bench.killHost();
      case AGENT_RESTARTS -> bench.restartAgent();
      case VISITS -> {
        bench.line.cut(true);
        bench.run(bench.random.nextInt(30_000_000));
        bench.restartAgent();
        bench.run(bench.random.nextInt(30_000_000));
        bench.line.cut(false);
        bench.visit(bench.random.nextInt(10_000_000));
      }
      default -> bench.killAgent();
    }
  }
}
