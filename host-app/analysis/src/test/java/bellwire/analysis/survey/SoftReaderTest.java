package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Against the divider worked out by Thevenin's theorem. Theory (44). */
class SoftReaderTest {
  private static final BoardModel BOARD = IdealBoard.MODEL;
  private static final SoftReader READER = new SoftReader(BOARD);

  private static Quantity read(double ohms, double pathOhms, boolean overloaded) {
    double series = BOARD.limiterOhms() + BOARD.checkLowOhms();
    double reference = BOARD.lowReferenceOhms();
    double sourceVolts = BOARD.excitationVolts() * reference / (series + reference);
    double sourceOhms = series * reference / (series + reference);
    double amps = sourceVolts / (sourceOhms + pathOhms + ohms);
    Probe across = SoftReader.fed(0, 1, 0, Look.pair(0, 1), 16, Pace.PRECISE);
    return READER.ohms(
        new Reading(across, amps * ohms, Double.NaN, overloaded),
        new Reading(
            across.looking(Look.REFERENCE, 16), amps * (pathOhms + ohms), Double.NaN, false));
  }

  @Test
  void aResistanceIsReadWithoutThePathsToIt() {
    for (double ohms : new double[] {0.01, 0.5, 16, 300}) {
      Quantity read = read(ohms, 100, false);
      assertThat(read.value()).isCloseTo(ohms, within(1e-9 * ohms));
      // 1.5 % of the current is a rectangle's half-width, and so are the 12 uV of the offsets.
      assertThat(read.u()).isGreaterThanOrEqualTo(0.015 / Math.sqrt(3) * ohms);
      assertThat(read.u()).isGreaterThanOrEqualTo(12e-6 / Math.sqrt(3) / 1.2e-3);
    }
  }

  /** 100 mV at the reference and 80 mV across: offsets, the source's 1.5 % and noise, GUM 5.1.2. */
  @Test
  void theUncertaintyByHand() {
    Probe across = SoftReader.fed(0, 1, 0, Look.pair(0, 1), 16, Pace.QUICK);
    BoardModel board = RoundBoard.MODEL;
    Quantity read =
        new SoftReader(board)
            .ohms(
                new Reading(across, 0.08, Double.NaN, false),
                new Reading(across.looking(Look.REFERENCE, 16), 0.09, Double.NaN, false));
    double amps = (2 - 0.09) / 1766 - 0.09 / 100;
    double offsets = 12e-6 / amps / Math.sqrt(3);
    double source = 0.08 / amps * 0.015 * (2.0 / 1766) / amps / Math.sqrt(3);
    double noise = Math.sqrt(3) * Math.hypot(2e-6 / 16, 1e-7) / amps;
    assertThat(read.value()).isCloseTo(0.08 / amps, within(1e-9));
    assertThat(read.u()).isCloseTo(Math.hypot(Math.hypot(offsets, source), noise), within(1e-12));
  }

  /** The voltage first and then the reference, in one state. */
  @Test
  void twoReadingsMakeAResistance() {
    List<Probe> probes = SoftReader.probes(3, 5, Ports.bit(7), Pace.QUICK);
    assertThat(probes).extracting(Probe::look).containsExactly(Look.pair(3, 5), Look.REFERENCE);
    assertThat(probes).allMatch(p -> p.returned() == Ports.bit(3) && p.gain() == 16);
    assertThat(probes).allMatch(p -> p.guard() == (Ports.ALL & ~Ports.mask(List.of(3, 7))));
  }

  @Test
  void nothingIsSaidWithoutACurrentOrBeyondTheRange() {
    assertThat(read(1e5, 100, false)).isNull();
    assertThat(read(16, 100, true)).isNull();
  }

  @Test
  void theFedPortNeverSeesMoreThanATenthOfAVolt() {
    double series = BOARD.limiterOhms() + BOARD.checkLowOhms();
    double open =
        BOARD.excitationVolts() * BOARD.lowReferenceOhms() / (series + BOARD.lowReferenceOhms());
    assertThat(READER.amps(open)).isCloseTo(0, within(1e-12));
    assertThat(open).isLessThan(0.11);
    assertThat(READER.amps(0)).isCloseTo(BOARD.excitationVolts() / series, within(1e-12));
  }

  @Test
  void onePortIsFedOneHeldAndTheNamedOnesFloat() {
    Probe probe =
        SoftReader.fed(
            2, 5, Ports.bit(2) | Ports.bit(5) | Ports.bit(7), Look.REFERENCE, 16, Pace.QUICK);
    assertThat(probe.returned()).isEqualTo(Ports.bit(2));
    assertThat(probe.guard() & Ports.bit(5)).isNotZero();
    assertThat(probe.guard() & (Ports.bit(2) | Ports.bit(7))).isZero();
  }
}
