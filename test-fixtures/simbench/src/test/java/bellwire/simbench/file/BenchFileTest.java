package bellwire.simbench.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import bellwire.simbench.control.ControlSetup;
import bellwire.simbench.control.Defect;
import bellwire.simbench.control.Kind;
import bellwire.simbench.control.Operation;
import bellwire.yaml.FileException;
import bellwire.yaml.YamlFile;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class BenchFileTest {
  private static final String FULL =
      """
      bellwire-bench: 1
      seed: 7
      cable:
        gauge: 18 AWG
        length: 80 ft
        temperature: 72 F
        capacitance: 66 pF/m
        conductors:
          - {port: P1, colour: red,   far: 3}
          - {port: P2, colour: white, far: 1}
          - {port: P4, colour: blue,  far: 2}
          - {port: P5, colour: brown, far: 5}
      joints:  [{conductor: P2, at: 0.98, ohm: 0.4}]
      opens:   [{conductor: P5, at: 0.62}]
      bridges: [{between: [P1, P4], at: 0.01, ohm: 0.05}, {between: [P5, M], at: 0.3, ohm: 2 Mohm}]
      far-end:
        - {from: 0 s, plug: open, fingers: {positions: [1, 2], ohm: 200 kohm}}
        - {from: 20 s, plug: coded, seated: [1, 2]}
        - {from: 60 s, plug: tie, seated: 0.5}
        - {from: 70 s, plug: open, ties: [[1, 2], [3, M]]}
      near-seating: [15 s, 30 s]
      contacts: [{conductor: P2, end: far, ohm: 0.3, seating: 1}]
      spread: {resistance: 0.5 %, capacitance: 5 %, contact: 2..20 mohm}
      plug: {number: 3, tolerance: 0.01 %, temperature: 20 C}
      surroundings:
        ambient: 24 C
        hum: 5 mV 50 Hz
        mains: {volts: 230, hz: 50, capacitance: 2 pF}
        foreign: [{between: [P1, M], volts: 26, hz: 60, ohm: 2, from: 100 ms, until: 3 s}]
        induced: [{on: P2, volts: 120, hz: 60, capacitance: 22 pF}]
      board: {noise: 1.0, reference-error: 20 ppm, switch-leakage: 0.3 nA, clock-drift: -80 ppm, tick-jitter: 0.4 ms}
      metal: {clipped: true, to: drain}
      attached:
        - {coil: [P2, M], ohm: 16, henry: 250 mH, core: 5 kohm, at: near}
        - {capacitor: [P1, P2], farad: 1 uF, at: far, from: 2 s, until: 9 s}
        - {diode: [P1, P4], at: 0.3}
        - {battery: [P1, P2], volts: 3, ohm: 0.5, at: far}
        - {cable: [P1, P2, P4], length: 8 m}
        - {jumper: [P1, P5], ohm: 20 mohm}
      control:
        kind: two-supplies
        leads: [W1, none, G, Y1]
        response: 1.5 s
        stage-from: demand
        contacts: semiconductor
        leak: 40 %
        power: battery
        clock-error: -0.2 %
        room-drift: 2 K/h
        supplies: [{volts: 25, hz: 50}, {volts: 27, hz: 50, phase: 120, sag: 2 %}]
        defects: [{defect: no-rest}, {defect: late-drop-out, terminal: G, time: 3 min}]
        actions:
          - {at: 10 s, mode: heat, set: 3 K}
          - {at: 2 min, fan: on, power: off}
      """;

  @Test
  void everyKeyIsRead() throws FileException {
    Bench bench = BenchFile.parse("full.yaml", FULL);
    assertThat(bench.seed()).isEqualTo(7);
    assertThat(bench.cable().lengthMetres()).isCloseTo(24.384, within(1e-9));
    assertThat(bench.cable().celsius()).isCloseTo(22.222, within(1e-3));
    assertThat(bench.cable().faradsPerMetre()).isCloseTo(66e-12, within(1e-20));
    assertThat(bench.cable().conductors()).hasSize(4).contains(new Bench.Conductor(3, "blue", 2));
    assertThat(bench.joints()).containsExactly(new Bench.Joint(1, 0.98, 0.4));
    assertThat(bench.opens()).containsExactly(new Bench.Open(4, 0.62));
    assertThat(bench.bridges().get(1)).isEqualTo(new Bench.Bridge(4, 16, 0.3, 2e6));
    assertThat(bench.farEnd()).hasSize(4);
    assertThat(bench.farEnd().get(0).fingerOhms()).isEqualTo(200e3);
    assertThat(bench.farEnd().get(1).seated()).containsExactly(1, 2);
    assertThat(bench.farEnd().get(2).seatedFraction()).isEqualTo(0.5);
    assertThat(bench.farEnd().get(3).ties())
        .containsExactly(List.of(1, 2), List.of(3, Bench.FarEnd.METAL));
    assertThat(bench.nearSeatingNanos()).containsExactly(15_000_000_000L, 30_000_000_000L);
    assertThat(bench.contacts()).containsExactly(new Bench.ForcedContact(1, Bench.End.FAR, 0.3, 1));
    assertThat(bench.spread().resistance()).isCloseTo(0.005, within(1e-12));
    assertThat(bench.spread().contactHighOhms()).isCloseTo(0.02, within(1e-12));
    assertThat(bench.plug().tolerance()).isCloseTo(1e-4, within(1e-12));
    assertThat(bench.surroundings().humVolts()).isCloseTo(5e-3, within(1e-12));
    assertThat(bench.surroundings().mains().faradsEach()).isCloseTo(2e-12, within(1e-20));
    assertThat(bench.surroundings().foreign().get(0).fromNanos()).isEqualTo(100_000_000L);
    assertThat(bench.surroundings().induced()).hasSize(1);
    assertThat(bench.board().clockDrift()).isCloseTo(-80e-6, within(1e-12));
    assertThat(bench.board().tickJitterNanos()).isEqualTo(400_000);
    assertThat(bench.board().referenceError().orElseThrow()).isCloseTo(20e-6, within(1e-12));
    assertThat(bench.attached()).hasSize(6);
    Bench.Attached coil = bench.attached().get(0);
    assertThat(coil.kind()).isEqualTo(Bench.AttachedKind.COIL);
    assertThat(coil.ports()).containsExactly(1, 16);
    assertThat(coil.henries()).isCloseTo(0.25, within(1e-12));
    assertThat(coil.coreOhms()).isEqualTo(5000);
    assertThat(coil.at()).isEmpty();
    Bench.Attached capacitor = bench.attached().get(1);
    assertThat(capacitor.farads()).isCloseTo(1e-6, within(1e-18));
    assertThat(capacitor.at()).hasValue(1);
    assertThat(capacitor.untilNanos()).isEqualTo(9_000_000_000L);
    assertThat(bench.attached().get(2).volts()).isEqualTo(0.6);
    assertThat(bench.attached().get(4).ports()).containsExactly(0, 1, 3);
    assertThat(bench.metal()).isEqualTo(new Bench.Metal(true, Bench.MetalKind.DRAIN));
    controlIsRead(bench.control().orElseThrow());
  }

  private static void controlIsRead(Bench.Control control) {
    ControlSetup setup = control.setup();
    assertThat(setup.kind()).isEqualTo(Kind.TWO_SUPPLIES);
    assertThat(control.leads()).containsExactly("W1", "", "G", "Y1");
    assertThat(setup.timing().responseSeconds()).isEqualTo(1.5);
    assertThat(setup.timing().restSeconds())
        .isEqualTo(ControlSetup.healthy(Kind.TWO_SUPPLIES).timing().restSeconds());
    assertThat(setup.timing().stageFromDemand()).isTrue();
    assertThat(setup.contacts().kind()).isEqualTo(ControlSetup.ContactKind.SEMICONDUCTOR);
    assertThat(setup.contacts().leakShare()).isCloseTo(0.4, within(1e-12));
    assertThat(setup.contacts().bounceMillis()).isCloseTo(1, within(1e-12));
    assertThat(setup.feed().source()).isEqualTo(ControlSetup.PowerSource.BATTERY);
    assertThat(setup.clockError()).isCloseTo(-0.002, within(1e-12));
    assertThat(setup.driftKelvinPerHour()).isEqualTo(2);
    assertThat(setup.supplies())
        .containsExactly(
            new ControlSetup.Supply(25, 50, 0, 0.01), new ControlSetup.Supply(27, 50, 120, 0.02));
    assertThat(setup.faults())
        .containsExactly(
            new ControlSetup.Fault(Defect.NO_REST, "Y1", 0),
            new ControlSetup.Fault(Defect.LATE_DROP_OUT, "G", 180));
    assertThat(control.actions())
        .containsExactly(
            new Bench.Action(10_000_000_000L, Operation.mode(Operation.Mode.HEAT, 3)),
            new Bench.Action(120_000_000_000L, new Operation(null, Operation.Fan.ON, null, false)));
  }

  @Test
  void aControlNeedsNoCable() throws FileException {
    Bench bench =
        BenchFile.parse("x.yaml", "bellwire-bench: 1\nseed: 1\ncontrol: {kind: boiler-dry}\n");
    assertThat(bench.cable().conductors()).hasSize(1);
    assertThat(bench.control().orElseThrow().leads()).containsExactly("W1");
    assertThat(
            BenchFile.parse(
                    "x.yaml",
                    "bellwire-bench: 1\nseed: 1\ncontrol: {kind: zone-panel, leads: {X3: G}}\n")
                .control()
                .orElseThrow()
                .leads())
        .startsWith("", "", "G", "")
        .hasSize(16);
    assertThat(
            catchThrowableOfType(
                FileException.class,
                () -> BenchFile.parse("x.yaml", "bellwire-bench: 1\nseed: 1\n")))
        .hasMessageContaining("key=cable");
  }

  /** What a slip of the pen turns the file into, the line to blame, and words that must be said. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "seed: 7 | sed: 7 | 2 | unknown key | did you mean 'seed'",
        "seed: 7 | # none | 1 | key missing | seed",
        "bellwire-bench: 1 | bellwire-bench: 2 | 1 | unknown version | bellwire-bench: 1",
        "gauge: 18 AWG | gauge: 41 AWG | 4 | no such gauge: gauge=41 AWG | 0000 to 40",
        "gauge: 18 AWG | gauge: 18 | 4 | no such gauge | 18 AWG",
        "gauge: 18 AWG | gauge: 00000 AWG | 4 | no such gauge | 18 AWG",
        "gauge: 18 AWG | gauge: 0 mm2 | 4 | no such gauge | mm2",
        "length: 80 ft | length: 80 | 5 | unit missing | 24.5 m",
        "length: 80 ft | length: 80 yards | 5 | unit not known | m, ft",
        "length: 80 ft | length: NaN m | 5 | no number | 24.5 m",
        "length: 80 ft | length: 1e999 m | 5 | out of bounds | 10000",
        "length: 80 ft | length: -3 m | 5 | out of bounds | 0.01",
        "length: 80 ft | lenght: 80 ft | 5 | unknown key in cable: key=lenght | did you mean 'length'",
        "temperature: 72 F | temperature: 72 K | 6 | no temperature | 22 C",
        "temperature: 72 F | temprature: 72 F | 6 | unknown key | did you mean 'temperature'",
        "port: P2 | port: P17 | 10 | no such port | P1 to P16",
        "port: P2 | port: P1 | 10 | two conductors on one port: port=P1 | own port",
        "port: P2 | port: M | 10 | M takes no conductor | P1 to P16",
        "far: 1} | far: 3} | 10 | far position twice: far=3 | own position",
        "far: 1} | far: 17} | 10 | out of bounds | 1 to 16",
        "colour: white, | '' | 10 | key missing in conductors: key=colour | add",
        "at: 0.98 | at: 1.2 | 13 | out of bounds | 0 to 1",
        "conductor: P5 | conductor: P9 | 14 | no conductor on that port | cable's conductors",
        "between: [P1, P4] | between: [P1, P1] | 15 | the same port twice | two different",
        "between: [P1, P4] | between: [P1] | 15 | not two ports | P4",
        "ohm: 0.05 | ohm: -1 | 15 | out of bounds | 0 to",
        "ohm: 0.05 | ohm: 5 farad | 15 | unit not known | kohm",
        "from: 20 s | from: 0 s | 18 | times out of order | rising",
        "plug: coded | plug: codid | 18 | no such choice | open, coded, tie",
        "positions: [1, 2] | positions: [1, 4] | 17 | no conductor at that far position | far",
        "positions: [1, 2] | positions: [1, 1] | 17 | far position twice | once",
        "[3, M] | [M, M] | 20 | M twice in ties | once",
        "[15 s, 30 s] | [30 s, 15 s] | 21 | times out of order | rising",
        "contact: 2..20 mohm | contact: 2 mohm | 23 | no range | 2..20 mohm",
        "contact: 2..20 mohm | contact: 20..2 mohm | 23 | out of bounds | 20",
        "hum: 5 mV 50 Hz | hum: 5 mV | 27 | no hum | 5 mV 60 Hz",
        "until: 3 s | until: 50 ms | 29 | times out of order | after",
        "noise: 1.0 | noise: loud | 31 | no plain number | digits",
        "clipped: true | clipped: maybe | 32 | neither true nor false | true or false",
        "seed: 7 | seed: 7.5 | 2 | no whole number | whole number",
        "coil: [P2, M] | coal: [P2, M] | 34 | names nothing | begin it with one of coil",
        "coil: [P2, M] | coil: [P2, P3] | 34 | no conductor on that port | cable's conductors",
        "henry: 250 mH | henry: 250 | 34 | out of bounds | 100",
        "henry: 250 mH | henry: 250 uF | 34 | unit not known | mH",
        "farad: 1 uF, at: far | farad: 1 uF, at: top | 35 | no place in attached | a fraction",
        "farad: 1 uF, | coil: [P1, P2], | 35 | two things in one entry | own entry",
        "until: 9 s | until: 1 s | 35 | times out of order | after",
        "at: 0.3} | att: 0.3} | 36 | unknown key | did you mean 'at'",
        "cable: [P1, P2, P4] | cable: [] | 38 | no ports | P4",
        "cable: [P1, P2, P4] | cable: [P1, P1] | 38 | the same port twice | once",
        "board: | boards: | 31 | unknown key | did you mean 'board'",
        "control: | contol: | 40 | unknown key | did you mean 'control'",
        "kind: two-supplies | kind: two-supply | 41 | no such choice | furnace-cooling",
        "kind: two-supplies | kind: zone-panel | 50 | wrong number of supplies | takes 1",
        "kind: two-supplies | kind: boiler-dry | 45 | no dry contact | relay",
        "leads: [W1, none | leads: [W1, W1 | 42 | a terminal on two leads: leads=W1 | once",
        "leads: [W1, none | leads: [W1, O | 42 | no such terminal of this kind | W1, Y1, G",
        "leads: [W1, none, G, Y1] | leads: {X1: W1, Y2: G} | 42 | unknown key | did you mean 'X2'",
        "response: 1.5 s | response: 1.5 | 43 | unit missing | ms",
        "response: 1.5 s | responce: 1.5 s | 43 | unknown key | did you mean 'response'",
        "stage-from: demand | stage-from: last | 44 | no such choice | first, demand",
        "leak: 40 % | leak: 140 % | 46 | out of bounds | 100",
        "power: battery | power: mains | 47 | no such choice | battery, common",
        "clock-error: -0.2 % | clock-error: -2 % | 48 | out of bounds | 0.5",
        "room-drift: 2 K/h | room-drift: 2 K | 49 | unit not known | K/h",
        "volts: 25, hz: 50 | volts: 120, hz: 50 | 50 | out of bounds | 30",
        "defect: no-rest | defect: no-test | 51 | no such choice | no-rest",
        "defect: no-rest | defect: valve-reversed | 51 | this kind can't have | another kind",
        "defect: no-rest | defect: no-rest, terminal: Y1 | 51 | unknown key | use defect",
        "terminal: G | terminal: W2 | 51 | no such terminal | W1, Y1, G",
        "at: 10 s, | at: 10 min, | 54 | times out of order in actions | rising",
        "set: 3 K | set: 300 K | 53 | out of bounds | 30",
        "set: 3 K | set: 3 V | 53 | unit not known | K",
        "mode: heat | mode: hot | 53 | no such choice | off, heat, cool, emergency",
        "mode: heat, set: 3 K | '' | 53 | does nothing | mode, fan, set or power",
      })
  void slipsAreNamedWithFileLineAndRemedy(
      String right, String wrong, int line, String problem, String remedy) {
    assertThat(FULL).contains(right);
    FileException error =
        catchThrowableOfType(
            FileException.class,
            () ->
                BenchFile.parse(
                    "slip.yaml", FULL.replaceFirst(java.util.regex.Pattern.quote(right), wrong)));
    assertThat(error.line()).isEqualTo(line);
    assertThat(error)
        .hasMessageStartingWith("slip.yaml:" + line + ": ")
        .hasMessageContaining(problem)
        .hasMessageContaining(remedy);
    assertThat(error.getMessage()).doesNotContain("\n");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "[",
        "a: [1, 2",
        "- 1",
        "just words",
        "a: &x [*x]",
        "a: 1\n---\nb: 2",
        "a: 1\na: 2",
        "\t",
        "? [a]\n: b"
      })
  void whatIsNoBenchIsRefusedInOneLine(String text) {
    FileException error =
        catchThrowableOfType(FileException.class, () -> BenchFile.parse("x.yaml", text));
    assertThat(error).hasMessageStartingWith("x.yaml:");
    assertThat(error.getMessage()).doesNotContain("\n");
  }

  @Test
  void filesAreBoundedAndMustBeText(@TempDir Path directory) throws Exception {
    Path file = directory.resolve("big.yaml");
    Files.writeString(file, "#".repeat(YamlFile.MAX_BYTES + 1));
    assertThat(catchThrowableOfType(FileException.class, () -> BenchFile.read(file)))
        .hasMessageContaining("file too long");
    Files.write(file, new byte[] {'a', (byte) 0xff, 'b'});
    assertThat(catchThrowableOfType(FileException.class, () -> BenchFile.read(file)))
        .hasMessageContaining("UTF-8");
  }

  @ParameterizedTest
  @ValueSource(strings = {"demo", "healthy-5"})
  void theBenchesThatComeAlongAreGood(String name) throws Exception {
    try (InputStream in = BenchFile.class.getResourceAsStream("/benches/" + name + ".yaml")) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      assertThat(BenchFile.parse(name, text).farEnd()).hasSize(3);
    }
  }

  @ParameterizedTest
  @CsvSource({"control-healthy, 0", "control-faulty, 2", "demo-control, 1"})
  void theControlsThatComeAlongAreGood(String name, int defects) throws Exception {
    try (InputStream in = BenchFile.class.getResourceAsStream("/benches/" + name + ".yaml")) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      assertThat(BenchFile.parse(name, text).control().orElseThrow().setup().faults())
          .hasSize(defects);
    }
  }

  /** Area by gauge, the values of the AWG formula, ASTM B258, as commonly tabled. */
  @ParameterizedTest
  @CsvSource({"12, 3.30877", "14, 2.08091", "18, 0.82305", "24, 0.20473", "26, 0.12876"})
  void areaByGauge(int awg, double squareMillimetres) {
    assertThat(Gauge.awgSquareMillimetres(awg)).isCloseTo(squareMillimetres, within(6e-6));
  }

  @ParameterizedTest
  @CsvSource({"0000 AWG, 107.219", "0 AWG, 53.475", "40 AWG, 0.00501", "0.75 mm2, 0.75"})
  void gaugesAsWritten(String text, double squareMillimetres) {
    assertThat(Gauge.squareMillimetres(text).orElseThrow())
        .isCloseTo(squareMillimetres, within(0.001 * squareMillimetres));
  }
}
