package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** What is said of a port from what the open phase found. */
class OpenResultTest {

  @Test
  void aPortWithoutCopperBelongsToNothing() {
    OpenResult open = new OpenFindings(0, 1, 2).joined(0, 2, 1).result();
    assertThat(open.clusterOf(2)).isEqualTo(open.clusterOf(0));
    assertThatIllegalArgumentException().isThrownBy(() -> open.clusterOf(7)).withMessage("port=7");
  }

  /**
   * Two that touch by less than 200 ohm have one arm; by more each has its own, less well known.
   */
  @Test
  void aNearFellowHidesAnArmAndAFarOneDoesNot() {
    assertThat(new OpenFindings(0, 1, 2).joined(0, 1, 199).result().hiding(0)).containsExactly(1);
    assertThat(new OpenFindings(0, 1, 2).joined(0, 1, 201).result().hiding(0)).isEmpty();
    OpenResult unread = new OpenFindings(0, 1, 2).joined(0, 1, 201).result();
    unread.distances()[1][0] = null;
    assertThat(unread.hiding(1)).containsExactly(0);
    assertThat(unread.hiding(0)).isEmpty();
    assertThat(unread.hiding(2)).isEmpty();
  }

  @Test
  void ofThreeThatTouchEachHidesTheOthers() {
    OpenResult open = new OpenFindings(0, 1, 2, 3).joined(0, 1, 500).joined(1, 2, 500).result();
    assertThat(open.hiding(0)).containsExactly(1, 2);
    assertThat(open.hiding(1)).containsExactly(0, 2);
  }

  /** From 1 µS on it moves an arm's reading by more than a conductor has. */
  @Test
  void aPairThatLeaksHidesItsArms() {
    assertThat(leaking(0.99e6).hiding(0)).containsExactly(1);
    assertThat(leaking(1.01e6).hiding(0)).isEmpty();
    OpenResult vague =
        new OpenFindings(0, 1, 2).joined(0, 1, 500).leaking(0, 2, 0.5e6, 0.2e6).result();
    assertThat(vague.hiding(0)).isEmpty(); // not five standard uncertainties from nothing
    assertThat(leaking(0.5e6).hiding(2)).isEmpty(); // has no fellow to be hidden by
  }

  private static OpenResult leaking(double ohms) {
    return new OpenFindings(0, 1, 2).joined(0, 1, 500).leaking(0, 2, ohms, 10).result();
  }

  @Test
  void aLeakageIsBetweenClustersAndDetected() {
    OpenResult open =
        new OpenFindings(0, 1, 2, 3)
            .joined(0, 1, 5)
            .leaking(1, 2, 50e3, 10)
            .leaking(2, 3, 50e3, 20e3)
            .result();
    assertThat(open.leakSiemens(0, 2)).isCloseTo(20e-6, within(1e-15));
    assertThat(open.leakSiemens(2, 1)).isCloseTo(20e-6, within(1e-15));
    assertThat(open.leakSiemens(0, 1)).isZero();
    assertThat(open.leakSiemens(2, 3)).isZero();
    open.leaks()[0][0] = new Leak(1, 0);
    assertThat(open.leakSiemens(0, 1)).isZero();
  }

  @Test
  void bridgedIsTheClusterAndWhatLeaksToItByLess() {
    OpenResult open =
        new OpenFindings(0, 1, 2, 3)
            .joined(0, 1, 5)
            .leaking(1, 2, 9e3, 1)
            .leaking(1, 3, 11e3, 1)
            .result();
    assertThat(open.bridged(0, 10e3)).containsExactly(1, 2);
    assertThat(open.bridged(2, 10e3)).containsExactly(0, 1);
    assertThat(open.bridged(3, 10e3)).isEmpty();
  }

  /** A port by itself as the rough round read it; of a cluster what leaks, 20 µS and 10 µS. */
  @Test
  void apartIsWhatIsLeftWithoutTheFellows() {
    OpenResult open =
        new OpenFindings(0, 1, 2, 3, 4)
            .joined(0, 1, 5)
            .leaking(0, 2, 50e3, 10)
            .leaking(0, 3, 100e3, 10)
            .leaking(0, 4, 20e3, 10e3) // not detected
            .result();
    open.restOhms()[0] = 5;
    open.restOhms()[2] = 48e3;
    assertThat(open.apartOhms(0)).isCloseTo(1 / (30e-6 + 1e-9), within(1e-6));
    assertThat(open.apartOhms(2)).isEqualTo(48e3);
    assertThat(new OpenFindings(0, 1).joined(0, 1, 5).result().apartOhms(1))
        .isCloseTo(1e9, within(1.0));
  }

  /** The leakages of a port were measured finely, the rest of it roughly. */
  @Test
  void foundIsTheFinestReadingThereIs() {
    OpenResult open =
        new OpenFindings(0, 1, 2, 3, 4)
            .joined(0, 1, 5)
            .leaking(2, 3, 50e3, 10)
            .leaking(2, 0, 100e3, 10)
            .leaking(2, 4, 20e3, 10e3)
            .result();
    open.restOhms()[0] = 5;
    open.restOhms()[2] = 35e3;
    assertThat(open.foundOhms(2)).isCloseTo(1 / 30e-6, within(1e-6));
    open.restOhms()[2] = 32e3;
    assertThat(open.foundOhms(2)).isEqualTo(32e3);
    assertThat(open.foundOhms(0)).isEqualTo(5);
    assertThat(open.foundOhms(4)).isEqualTo(1e9);
  }

  private static OpenResult ring() {
    OpenResult open =
        new OpenFindings(0, 1, 2, 3, 4, 16)
            .joined(0, 1, 50)
            .joined(1, 2, 50)
            .joined(2, 16, 50)
            .joined(3, 4, 50)
            .result();
    for (int port : open.ports()) {
      open.restOhms()[port] = 40;
    }
    return open;
  }

  /** P1 to P3 and M hang together, P4 and P5 apart from them; M is no conductor. */
  @Test
  void theMostThatHangTogetherAreCounted() {
    assertThat(ring().mostJoined(41)).isEqualTo(3);
    assertThat(ring().mostJoined(40)).isZero();
    OpenResult far = ring();
    far.restOhms()[0] = 300;
    far.restOhms()[1] = 300;
    assertThat(far.mostJoined(41)).isEqualTo(2);
    assertThat(new OpenFindings(0, 1, 2).result().mostJoined(2e9)).isEqualTo(1);
  }

  /** 100 kohm and more joins nothing: two arms of a plug have less between them. */
  @Test
  void aLeakageDoesNotHangPortsTogether() {
    OpenResult open =
        new OpenFindings(0, 1, 2).leaking(0, 1, 99e3, 1).leaking(1, 2, 101e3, 1).result();
    assertThat(open.mostJoined(2e9)).isEqualTo(2);
  }
}
