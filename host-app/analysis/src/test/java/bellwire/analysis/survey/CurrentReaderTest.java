package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.CurrentReader.Measured;
import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Kind;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import java.util.List;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;

/** A current out of three readings, by Ohm's law and a budget worked by hand (GUM 5.1.2). */
class CurrentReaderTest {
  private static final BoardModel BOARD = RoundBoard.MODEL;
  private static final int DRIVE = Ports.bit(2) | Ports.bit(3);
  private static final int RETURNED = Ports.bit(5);
  private static final double HUM_AMPS = 2.2e-7;
  private static final double ROOT_3 = Math.sqrt(3);

  private final CurrentReader reader = new CurrentReader(BOARD);

  private Probe probe(double siemens, End end) {
    return reader.excited(DRIVE, RETURNED, Ports.bit(9), siemens, end, 3);
  }

  private static Reading reading(Probe probe, double volts) {
    return new Reading(probe, volts, Double.NaN, false);
  }

  private static Reading over(Reading reading) {
    return new Reading(reading.probe(), reading.volts(), reading.scatterVolts(), true);
  }

  private static double root(double... each) {
    return Math.sqrt(DoubleStream.of(each).map(x -> x * x).sum());
  }

  /** 2 V and 30 % more for hum: 0.3 V at 1 Mohm, 0.55 V at 10 kohm. */
  @Test
  void theRangeIsTheFinestWithRoom() {
    assertThat(reader.endFor(0)).isEqualTo(End.HIGH);
    assertThat(reader.endFor(0.115e-6)).isEqualTo(End.HIGH);
    assertThat(reader.endFor(0.116e-6)).isEqualTo(End.MID);
    assertThat(reader.endFor(-0.116e-6)).isEqualTo(End.MID);
    assertThat(reader.endFor(21.1e-6)).isEqualTo(End.MID);
    assertThat(reader.endFor(21.2e-6)).isEqualTo(End.LOW);
    assertThat(reader.endFor(1)).isEqualTo(End.LOW);
  }

  @Test
  void theReadingIsOfTheRangesOwnElement() {
    Probe low = probe(1e-3, End.LOW);
    assertThat(low.look()).isEqualTo(Look.REFERENCE);
    assertThat(low.gain()).isEqualTo(Probe.gainFor(0.2));
    assertThat(probe(1, End.LOW).gain()).isEqualTo(Probe.gainFor(0.5)); // the source gives 5 mA
    Probe mid = probe(2.5e-5, End.MID);
    assertThat(mid.look()).isEqualTo(Look.TRANSIMPEDANCE);
    assertThat(mid.gain()).isEqualTo(Probe.gainFor(0.5));
    assertThat(probe(1e-12, End.HIGH).gain()).isEqualTo(8);
    assertThat(mid.drive()).isEqualTo(DRIVE);
    assertThat(mid.returned()).isEqualTo(RETURNED);
    assertThat(mid.guard()).isEqualTo(Ports.bit(9));
    assertThat(mid.excite()).isTrue();
    assertThat(mid.repeats()).isEqualTo(3);
    assertThat(mid.pace()).isEqualTo(Pace.PRECISE);
  }

  @Test
  void theVoltageIsReadOnceInTheSameState() {
    Probe low = probe(1e-3, End.LOW);
    Probe voltage = CurrentReader.voltage(low);
    assertThat(voltage.look()).isEqualTo(Look.terminal(2));
    assertThat(voltage.gain()).isEqualTo(1);
    assertThat(voltage.repeats()).isEqualTo(1);
    Probe across = CurrentReader.across(low);
    assertThat(across.look().kind()).isEqualTo(Kind.PAIR);
    assertThat(across.look()).isEqualTo(Look.pair(2, 5));
    assertThat(across.drive()).isEqualTo(DRIVE);
    assertThat(across.returned()).isEqualTo(RETURNED);
  }

  /** 10 mV of which 0.2 mV are there without: 98 µA; three open switches of 0.3 nA at most. */
  @Test
  void theLowRangeByHand() {
    Probe on = probe(1e-3, End.LOW);
    Measured measured =
        reader.measured(
            reading(on, 0.0100),
            reading(CurrentReader.voltage(on), 1.5),
            reading(on.silent(), 0.0002),
            0);
    double switchAmps = 1e-9 * 0.2 * 1.5;
    double amps = 98e-6 - 3 * switchAmps / 4;
    assertThat(measured.amps()).isCloseTo(amps, within(1e-15));
    assertThat(measured.volts()).isEqualTo(1.5);
    double noise = Math.hypot(2e-6 / on.gain(), 1e-7);
    double u =
        root(
            Math.sqrt(2.0 / 3) * noise / 100,
            Math.sqrt(2) * HUM_AMPS * 2e-5 / ROOT_3,
            Math.sqrt(3) * Math.sqrt(7) / 12 * switchAmps,
            amps * 1e-3 / ROOT_3,
            amps * 4e-4 / 3,
            Math.sqrt(2) * amps * 1e-4 / ROOT_3);
    assertThat(measured.u()).isCloseTo(u, within(1e-9 * u));
  }

  /** The stage inverts; what its diodes take is added back, less what they take without. */
  @Test
  void theStagesRangesByHand() {
    for (double on : new double[] {-0.25, -0.35, 0.25}) {
      for (End end : new End[] {End.MID, End.HIGH}) {
        stage(end, on, 0.01);
      }
    }
  }

  private void stage(End end, double onVolts, double offVolts) {
    double feedback = end == End.MID ? 1e4 : 1e6;
    Probe on = probe(2.5e-5, end);
    Measured measured =
        reader.measured(
            reading(on, onVolts),
            reading(CurrentReader.voltage(on), -1.5),
            reading(on.silent(), offVolts),
            0);
    double switchAmps = 1e-9 * 0.2 * 1.5;
    double taken =
        (Math.sinh(onVolts / 0.05) - Math.sinh(offVolts / 0.05)) / Math.sinh(0.35 / 0.05);
    double amps = -(onVolts - offVolts) / feedback - taken * 2e-9 - 3 * switchAmps / 4;
    assertThat(measured.amps()).as(end + " " + onVolts).isCloseTo(amps, within(1e-9 * 1e-6));
    double room = Math.max(0, 2.5 / on.gain() - Math.abs(onVolts));
    double hum = Math.min(Math.sqrt(2) * HUM_AMPS * feedback, room);
    double u =
        root(
            Math.sqrt(2.0 / 3) * Math.hypot(2e-6 / on.gain(), 1e-7) / feedback,
            Math.sqrt(2) * HUM_AMPS * 2e-5 / ROOT_3,
            Math.sqrt(3) * Math.sqrt(7) / 12 * switchAmps,
            amps * (end == End.MID ? 2e-3 : 3e-3) / ROOT_3,
            amps * (end == End.MID ? 5e-4 : 6e-4) / 3,
            amps * 30 / feedback / ROOT_3,
            taken * 3e-9 / ROOT_3,
            rectified(onVolts, hum) * 2e-9 / ROOT_3,
            Math.sqrt(2) * amps * 1e-4 / ROOT_3);
    assertThat(measured.u()).as(end + " " + onVolts).isCloseTo(u, within(1e-7 * u));
  }

  /** The mean of what the diodes take over a period of hum, less what they take without. */
  private static double rectified(double volts, double peak) {
    double sum = 0;
    int n = 2000;
    for (int k = 0; k < n; k++) {
      sum += Math.sinh((volts + peak * Math.sin(2 * Math.PI * k / n)) / 0.05);
    }
    return (sum / n - Math.sinh(volts / 0.05)) / Math.sinh(0.35 / 0.05);
  }

  /** As the repeats scatter, where that is more than the board's noise. */
  @Test
  void scatterThatWasSeenCounts() {
    Probe on = probe(1e-3, End.LOW);
    Reading nothing = reading(on, 0);
    Reading terminal = reading(CurrentReader.voltage(on), 0);
    Measured measured = reader.measured(nothing, terminal, reading(on.silent(), 0), 3e-3);
    assertThat(measured.u()).isCloseTo(Math.sqrt(2.0 / 3) * 3e-5, within(1e-9));
  }

  @Test
  void whatOverloadedIsNoCurrent() {
    Probe on = probe(1e-3, End.LOW);
    Reading lit = reading(on, 0.01);
    Reading terminal = reading(CurrentReader.voltage(on), 1.5);
    Reading dark = reading(on.silent(), 0);
    assertThat(reader.measured(lit, terminal, dark, 0)).isNotNull();
    assertThat(reader.measured(over(lit), terminal, dark, 0)).isNull();
    assertThat(reader.measured(lit, over(terminal), dark, 0)).isNull();
    assertThat(reader.measured(lit, terminal, over(dark), 0)).isNull();
  }

  /** Above half a volt the diodes take what should be read; the low range has none. */
  @Test
  void theStageIsReadUpToHalfAVolt() {
    Probe mid = probe(2.5e-5, End.MID);
    Reading terminal = reading(CurrentReader.voltage(mid), 1.5);
    Reading dark = reading(mid.silent(), 0);
    assertThat(reader.measured(reading(mid, -0.5), terminal, dark, 0)).isNotNull();
    assertThat(reader.measured(reading(mid, -0.501), terminal, dark, 0)).isNull();
    assertThat(reader.measured(reading(mid, 0.501), terminal, dark, 0)).isNull();
    Probe low = probe(1e-3, End.LOW);
    assertThat(reader.measured(reading(low, 0.9), terminal, reading(low.silent(), 0), 0))
        .isNotNull();
  }

  /** GUM H.3.6: sets of as many repeats each are pooled by the mean of their variances. */
  @Test
  void scatterIsPooledOverTheSetsThatHaveOne() {
    Probe on = probe(1e-3, End.LOW);
    Reading three = new Reading(on, 0, 3e-6, false);
    Reading four = new Reading(on, 0, 4e-6, false);
    Reading single = reading(on, 0);
    Reading spoilt = new Reading(on, 0, 1, true);
    assertThat(CurrentReader.pooledScatter(List.of(three, single, four, spoilt)))
        .isCloseTo(Math.sqrt(12.5) * 1e-6, within(1e-15));
    assertThat(CurrentReader.pooledScatter(List.of(single, spoilt))).isZero();
  }
}
