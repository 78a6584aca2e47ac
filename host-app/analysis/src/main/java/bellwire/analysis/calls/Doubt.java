package bellwire.analysis.calls;

/** Why a lead's level is not known. */
public enum Doubt {
  /** Nothing has been seen of it yet, or not for long enough. */
  UNDECIDED,
  /** Samples are missing. */
  SAMPLES_LOST,
  /** Voltage without the gaps of an alternating one: DC, or far above 30 V. */
  STEADY_VOLTAGE,
  /** Voltage that keeps to no mains frequency from 45 to 65 Hz: a data line, for example. */
  NOT_MAINS
}
