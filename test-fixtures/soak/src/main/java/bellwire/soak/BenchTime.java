package bellwire.soak;

import bellwire.app.job.Source;
import java.util.List;

/** From a vigil's time to the bench's. */
final class BenchTime {
  private final World world;
  private final List<Source> sources;
  private final double rate;

  BenchTime(World world, Scenario scenario, List<Source> sources) {
    this.world = world;
    this.sources = sources.stream().filter(s -> s.offsetMicros() != Source.NOT_KNOWN).toList();
    rate = 1 + scenario.bench().board().clockDrift();
  }

  /** By the boot that lived then; where none did, by the one nearest. */
  long bench(long micros) {
    long best = Long.MIN_VALUE;
    long off = Long.MAX_VALUE;
    for (World.Boot boot : world.boots()) {
      for (Source source : sources) {
        if (source.boot() != boot.boot()) {
          continue;
        }
        long bench = boot.micros() + Math.round((micros - source.offsetMicros()) / rate);
        long outside = Math.max(0, Math.max(boot.fromMicros() - bench, bench - boot.untilMicros()));
        if (outside < off) {
          off = outside;
          best = bench;
        }
      }
    }
    if (best == Long.MIN_VALUE) {
      throw new Broken("readings of no boot: micros=" + micros + " sources=" + sources);
    }
    return best;
  }
}
