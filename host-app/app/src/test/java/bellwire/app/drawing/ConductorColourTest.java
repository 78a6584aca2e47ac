package bellwire.app.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ConductorColourTest {
  @Test
  void namesInManySpellings() {
    ConductorColour whiteBlue = ConductorColour.of("white/blue");
    assertThat(whiteBlue.stripe()).isEqualTo(ConductorColour.of("blue").fill());
    assertThat(ConductorColour.of("White-Blue")).isEqualTo(whiteBlue);
    assertThat(ConductorColour.of("white with blue stripe")).isEqualTo(whiteBlue);
    assertThat(ConductorColour.of("WH/BU")).isEqualTo(whiteBlue);
    assertThat(ConductorColour.of("blue/white")).isNotEqualTo(whiteBlue);
    assertThat(ConductorColour.of("gray")).isEqualTo(ConductorColour.of("grey"));
  }

  @Test
  void lightIsLighterAndTellsOfTheNextColourOnly() {
    ConductorColour light = ConductorColour.of("light blue/blue");
    assertThat(light.stripe()).isEqualTo(ConductorColour.of("blue").fill());
    assertThat(Palette.luminance(light.fill()))
        .isGreaterThan(Palette.luminance(ConductorColour.of("blue").fill()));
    assertThat(Palette.luminance(ConductorColour.of("dark green").fill()))
        .isLessThan(Palette.luminance(ConductorColour.of("green").fill()));
  }

  @Test
  void whatIsNoColourSaysSo() {
    for (String name : new String[] {null, "", "P3", "\u9ed1", "reddish-something", "light"}) {
      assertThat(ConductorColour.of(name).known()).as(String.valueOf(name)).isFalse();
      assertThat(ConductorColour.of(name).stripe()).isNull();
    }
  }
}
