package bellwire.fuzz;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;

/** The targets by name, each with its bounds. */
@SuppressWarnings("ImmutableEnumChecker") // its suppliers keep nothing
public enum Entry {
  /** Any bytes on the serial line. */
  LINE(RawFrames::new, new Bounds(16_384, 600, 200, 1 << 17), MessageSeeds::frames),
  /** A CBOR item in a frame whose checksum is right. */
  ITEM(MendedFrames::new, new Bounds(16_384, 400, 200, 65_000), MessageSeeds::items),
  /** A host that says anything, to an agent's end of the link. */
  HOSTILE_HOST(HostileHost::new, new Bounds(32 << 20, 50_000, 1000, 1 << 14), LinkScripts::seeds),
  /** A device that says anything, to a host's end of the link. */
  HOSTILE_DEVICE(
      HostileDevice::new, new Bounds(32 << 20, 50_000, 1000, 1 << 14), LinkScripts::seeds),
  /** What an agent finds on its own disk. */
  AGENT_RECORD(RecordTarget::new, new Bounds(64 << 20, 4000, 2000, 1 << 16), Examples::logs),
  /** The agent's configuration. */
  AGENT_CONF(AgentConfTarget::new, new Bounds(1 << 20, 400, 200, 70_000), Examples::configurations),
  /** Bench files, with their faults that come and go. */
  BENCH(BenchTarget::new, new Bounds(64 << 20, 2000, 2000, 1 << 15), Examples::benches),
  /** Landing files. */
  LANDING(LandingTarget::new, new Bounds(256 << 20, 4000, 2000, 1 << 15), Examples::landings),
  /** Descriptions of equipment and controls. */
  PART(PartTarget::new, new Bounds(4 << 20, 4000, 500, 1 << 15), Examples::parts),
  /** A survey's result. */
  SURVEY(SurveyTarget::new, new Bounds(4 << 20, 2000, 500, 1 << 16), Examples::surveys),
  /** Rehearsal files, with their rules. */
  REHEARSAL(RehearsalTarget::new, new Bounds(1 << 30, 4000, 8000, 1 << 15), Examples::rehearsals),
  /** A rule's condition. */
  RULE(RuleTarget::new, new Bounds(1 << 20, 4000, 200, 1 << 13), Examples::rules),
  /** A rehearsal's record, played again. */
  REPLAY(ReplayTarget::new, new Bounds(512 << 20, 20_000, 20_000, 1 << 16), Examples::records),
  /** A job file with bytes of it changed. */
  JOB_BYTES(JobBytesTarget::new, new Bounds(512 << 20, 4000, 6000, 4096), JobBytesTarget::seeds),
  /** A job file with values of it changed, its checksums mended. */
  JOB_VALUES(
      JobValuesTarget::new, new Bounds(512 << 20, 4000, 6000, 1 << 13), JobValuesTarget::seeds);

  private final Supplier<Target> maker;
  private final Bounds bounds;
  private final Supplier<List<byte[]>> seeds;

  Entry(Supplier<Target> maker, Bounds bounds, Supplier<List<byte[]>> seeds) {
    this.maker = maker;
    this.bounds = bounds;
    this.seeds = seeds;
  }

  /** Its name on a command line, such as {@code job-file}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The one of that name. */
  public static Entry of(String word) {
    return Arrays.stream(values())
        .filter(entry -> entry.word().equals(word))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no such target: target=" + word));
  }

  /** A target to be used by one thread. */
  public Target open() {
    return maker.get();
  }

  public Bounds bounds() {
    return bounds;
  }

  /** Inputs to begin with: the examples of the repository. */
  public List<byte[]> seeds() {
    return seeds.get();
  }
}
