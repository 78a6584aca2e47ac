package bellwire.app.survey;

import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.link.Check;
import bellwire.link.Range;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.link.Tap;

/** Says in the link's terms what the analysis asks for. */
public final class ScanTranslation {
  private final Rate quick;

  /**
   * @param mainsHertz 50 or 60: what the QUICK pace rejects
   */
  public ScanTranslation(int mainsHertz) {
    quick = mainsHertz == 50 ? Rate.SPS_50 : Rate.SPS_60;
  }

  public ScanStep step(Probe probe) {
    return new ScanStep(
        probe.drive(),
        probe.returned(),
        probe.guard(),
        probe.excite(),
        range(probe.end()),
        check(probe.end()),
        probe.testLoad(),
        plus(probe.look()),
        minus(probe.look()),
        probe.gain(),
        rate(probe.pace()),
        probe.settleMicros(),
        probe.repeats());
  }

  private Rate rate(Pace pace) {
    return switch (pace) {
      case PRECISE -> Rate.SPS_20;
      case QUICK -> quick;
      case WAVE -> Rate.SPS_400;
      case INSTANT -> Rate.SPS_4000;
    };
  }

  private static Check check(Probe.End end) {
    return switch (end) {
      case CHECK_HIGH -> Check.HIGH;
      case SOFT -> Check.LOW;
      case NONE, LOW, MID, HIGH -> Check.NONE;
    };
  }

  private static Range range(Probe.End end) {
    return switch (end) {
      case NONE, CHECK_HIGH -> Range.NONE;
      case LOW, SOFT -> Range.LOW;
      case MID -> Range.MID;
      case HIGH -> Range.HIGH;
    };
  }

  private static Tap plus(Probe.Look look) {
    return switch (look.kind()) {
      case REFERENCE -> Tap.REFERENCE_HIGH;
      case REFERENCE_REVERSED -> Tap.REFERENCE_LOW;
      case TRANSIMPEDANCE -> Tap.TRANSIMPEDANCE;
      case PAIR, TERMINAL -> Tap.sense(look.a());
      case MONITOR, MONITOR_PAIR -> Tap.monitor(look.a());
    };
  }

  private static Tap minus(Probe.Look look) {
    return switch (look.kind()) {
      case REFERENCE -> Tap.REFERENCE_LOW;
      case REFERENCE_REVERSED -> Tap.REFERENCE_HIGH;
      case TRANSIMPEDANCE, TERMINAL, MONITOR -> Tap.COMMON;
      case PAIR -> Tap.sense(look.b());
      case MONITOR_PAIR -> Tap.monitor(look.b());
    };
  }
}
