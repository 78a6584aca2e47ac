package bellwire.analysis.loop;

import bellwire.analysis.circuit.OpeningTime;
import java.util.List;
import java.util.function.BooleanSupplier;

/**
 * What one state of the control does, before any fuse has opened.
 *
 * <p>Where it is not settled the currents are the largest that flow at any time, the voltages of
 * loads too.
 *
 * @param state of the control
 * @param lit whether the control has its supply; a blank control closes nothing. Where not settled:
 *     whether it has it at any time
 * @param controlVolts at the control's supply, V rms, the least of all times; NaN for a battery
 * @param loads in the equipment's order
 * @param fuses in the equipment's order, then the transformers' own breakers
 * @param transformers in the equipment's order
 * @param settled false: loads pull in and drop out for ever, or the control restarts for ever
 */
public record StateResult(
    Control.State state,
    boolean lit,
    double controlVolts,
    List<LoadResult> loads,
    List<FuseResult> fuses,
    List<TransformerResult> transformers,
    boolean settled) {

  /** What becomes of a load. */
  public enum Energised {
    OFF,
    ON,
    /** Gets more than it needs to hold in, less than it needs to pull in. */
    DOUBTFUL,
    CHATTERS
  }

  /** One load; whether it is held is found out when asked, so not for several threads. */
  public static final class LoadResult {
    private final Load load;
    private final Energised energised;
    private final BooleanSupplier held;
    private final double volts;
    private final double amps;

    LoadResult(Load load, Energised energised, BooleanSupplier held, double volts, double amps) {
      this.load = load;
      this.energised = energised;
      this.held = held;
      this.volts = volts;
      this.amps = amps;
    }

    public Load load() {
      return load;
    }

    /** Starting from all loads dropped out. */
    public Energised energised() {
      return energised;
    }

    /** Whether it would stay pulled in if it came into this state pulled in. */
    public boolean held() {
      return held.getAsBoolean();
    }

    public double volts() {
      return volts;
    }

    public double amps() {
      return amps;
    }
  }

  public record FuseResult(String name, double ratedAmps, double amps, OpeningTime opens) {}

  /**
   * @param amps of its secondary, A rms
   * @param voltAmperes openVolts·amps
   */
  public record TransformerResult(Transformer transformer, double amps, double voltAmperes) {
    public boolean overloaded() {
      return amps > transformer.ratedAmps() * 1.001;
    }
  }

  public StateResult {
    loads = List.copyOf(loads);
    fuses = List.copyOf(fuses);
    transformers = List.copyOf(transformers);
  }
}
