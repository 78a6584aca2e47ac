package bellwire.app.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIOException;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.loop.Cable;
import bellwire.app.cli.BellwireMain;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SurveyedCableTest {
  private static final String SOUND =
      "{'port':'%s','near-colour':%s,'far-position':%d,'standing':'sound','reason':'sound',"
          + "'resistance':{'value':%s,'standard-uncertainty':0.01,'unit':'ohm'}}";

  private static final Path DEMO =
      Path.of("..", "..", "test-fixtures/simbench/src/main/resources/benches/demo.yaml");

  @TempDir Path directory;

  private Path file(String text) throws IOException {
    return Files.writeString(directory.resolve("18-5.json"), text.replace('\'', '"'));
  }

  private static String survey(String conductors, String pairs, String rest) {
    return "{'bellwire-survey':1,'interlock':{'stopped-the-survey':false},'metal-checked':true,"
        + "'conductors':["
        + conductors
        + "],'pairs':["
        + pairs
        + "]"
        + rest
        + "}";
  }

  private static String sound(String port, String colour, int far, String ohms) {
    return String.format(SOUND, port, colour == null ? "null" : "'" + colour + "'", far, ohms);
  }

  /** The bench is described in its file: an open orange, yellow on black, 300 kohm, a joint. */
  @Test
  void whatTheSurveyFoundOnTheDemoCableIsWhatItsBenchHas() throws IOException {
    Path json = directory.resolve("demo.json");
    String ports = "P1=red,P2=white,P3=green,P4=blue,P5=yellow,P6=brown,P7=orange,P8=black";
    StringWriter out = new StringWriter();
    int exit =
        BellwireMain.commandLine()
            .setOut(new PrintWriter(out))
            .execute(
                "survey", "--bench", DEMO.toString(), "--ports", ports, "--json", json.toString());
    assertThat(exit).as("%s", out).isEqualTo(1);
    SurveyedCable surveyed = SurveyedCable.read(json);
    Cable cable = surveyed.cable();
    assertThat(cable.name()).isEqualTo("demo");
    assertThat(cable.conductors().stream().map(Cable.Conductor::name))
        .containsExactly("red", "white", "green", "blue", "yellow", "brown", "orange", "black");
    assertThat(cable.conductors().stream().filter(Cable.Conductor::broken))
        .extracting(Cable.Conductor::name)
        .containsExactly("orange");
    // Where the bench has it, not halfway: what touches beyond a break is not what touches before.
    assertThat(cable.conductor("orange").brokenAt()).isCloseTo(0.62, within(0.05));
    Cable.Conductor red = cable.conductor("red");
    // 18 AWG at 20 C: 6.385 ohm per 1000 ft (Floyd's table), 24.5 m; spread 0.5 %, 1 degree.
    assertThat(red.ohms()).isCloseTo(6.385 / 304.8 * 24.5, within(0.03));
    assertThat(red.uOhms()).isPositive();
    assertThat(surveyed.ports()).containsEntry("black", "P8");
    assertThat(surveyed.far()).containsEntry("red", 4).doesNotContainKey("orange");
    assertThat(surveyed.doubtful().keySet()).containsExactlyInAnyOrder("white", "yellow", "black");
    assertThat(surveyed.doubtful().get("yellow")).contains("touches black");
    assertThat(surveyed.metalChecked()).isTrue();
    assertThat(cable.bridges()).hasSize(2);
    Cable.Bridge leak = cable.bridges().get(0);
    assertThat(List.of(leak.a(), String.valueOf(leak.b()))).containsExactly("green", "brown");
    assertThat(leak.ohms()).isCloseTo(300e3, within(1e3));
    Cable.Bridge touch = cable.bridges().get(1);
    assertThat(List.of(touch.a(), String.valueOf(touch.b()))).containsExactly("yellow", "black");
    assertThat(touch.at()).isCloseTo(0.01, within(0.03));
    assertThat(touch.ohms()).isCloseTo(0.05, within(0.03));
  }

  @Test
  void withoutAColourOrWithOneTwiceThePortIsTheName() throws IOException {
    SurveyedCable surveyed =
        SurveyedCable.read(
            file(
                survey(
                    sound("P1", "white", 1, "0.5")
                        + ","
                        + sound("P2", "white", 2, "0.5")
                        + ","
                        + sound("P3", null, 3, "0.5")
                        + ","
                        + sound("P4", "red", 4, "0.6"),
                    "",
                    "")));
    assertThat(surveyed.cable().name()).isEqualTo("18-5");
    assertThat(surveyed.cable().conductors())
        .extracting(Cable.Conductor::name)
        .containsExactly("P1", "P2", "P3", "red");
    assertThat(surveyed.cable().conductor("P1").nearColour()).isEqualTo("white");
    assertThat(surveyed.doubtful()).isEmpty();
  }

  @Test
  void aTouchToMetalAtTheFarEndLosesTheCopperUpToThere() throws IOException {
    String pair =
        "{'between':['P1','M'],'standing':'faulty','reason':'touching',"
            + "'resistance':{'value':0.75,'standard-uncertainty':0.01,'unit':'ohm'}}";
    SurveyedCable surveyed =
        SurveyedCable.read(
            file(
                survey(
                    sound("P1", "red", 1, "0.5"),
                    pair,
                    ",'findings':[{'kind':'touching-at-the-far-end','ports':['P1','M'],'at':null}]")));
    Cable.Bridge bridge = surveyed.cable().bridges().get(0);
    assertThat(bridge.b()).isNull();
    assertThat(bridge.at()).isEqualTo(1);
    assertThat(bridge.ohms()).isCloseTo(0.25, within(1e-9));
  }

  @Test
  void ofATieEachConductorHasHalf() throws IOException {
    String tied =
        "{'port':'%s','near-colour':null,'far-position':%d,'standing':'sound','resistance':null}";
    SurveyedCable surveyed =
        SurveyedCable.read(
            file(
                survey(
                    String.format(tied, "P1", 1) + "," + String.format(tied, "P2", 2),
                    "",
                    ",'ties':{'rounds':[{'loops':[{'between':['P1','P2'],'resistance':"
                        + "{'value':1.1,'standard-uncertainty':0.01,'unit':'ohm'}}]}]}")));
    assertThat(surveyed.cable().conductor("P2").ohms()).isEqualTo(0.55);
  }

  @Test
  void refusesWithTheFileAndARemedy() throws IOException {
    Map<String, String> refusals =
        Map.of(
            "red",
            "not JSON; name a file that survey --json wrote",
            "{}",
            "no survey; name a file that survey --json wrote",
            "{'bellwire-survey':9}",
            "plan with the program that wrote it, or measure again",
            "{'bellwire-survey':1,'interlock':{'stopped-the-survey':true}}",
            "survey again",
            "{'bellwire-survey':1,'landing':{}}",
            "survey again without --in-place",
            "{'bellwire-survey':1}",
            "damaged (no conductors); survey again",
            survey(sound("P1", "red", 1, "-3"), "", ""),
            "damaged (port=P1 ohm=-3.0); survey again",
            survey(sound("P99", "red", 1, "1"), "", ""),
            "damaged (port=P99); survey again");
    for (Map.Entry<String, String> refusal : refusals.entrySet()) {
      Path file = file(refusal.getKey());
      assertThatIOException()
          .isThrownBy(() -> SurveyedCable.read(file))
          .withMessageStartingWith(file + ": ")
          .withMessageEndingWith(refusal.getValue());
    }
    Path none = directory.resolve("none.json");
    assertThatIOException()
        .isThrownBy(() -> SurveyedCable.read(none))
        .withMessageStartingWith(none + ": no such file");
  }
}
