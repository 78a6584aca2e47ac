package bellwire.app.drawing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.Color;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class PaletteTest {
  private static final Map<String, Palette> PALETTES =
      Map.of(
          "print", Palette.PRINT,
          "light", Palette.LIGHT,
          "dark", Palette.DARK,
          "dim", Palette.DIM,
          "sunlight", Palette.SUNLIGHT);

  /**
   * Machado, Oliveira and Fernandes (2009), severity 1.0, for linear RGB; from memory. Rows sum to
   * one, so that greys stay greys.
   */
  private static final Map<String, double[][]> DEFICIENCIES =
      Map.of(
          "protanopia",
          new double[][] {
            {0.152286, 1.052583, -0.204868},
            {0.114503, 0.786281, 0.099216},
            {-0.003882, -0.048116, 1.051998}
          },
          "deuteranopia",
          new double[][] {
            {0.367322, 0.860646, -0.227968},
            {0.280085, 0.672501, 0.047413},
            {-0.011820, 0.042940, 0.968881}
          });

  /**
   * Differences of 10 in CIE 1976 L*a*b* are told apart at a glance. Common practice, no source.
   */
  private static final double TOLD_APART = 10;

  private static Map<String, Color> texts(Palette p) {
    Map<String, Color> texts = new LinkedHashMap<>();
    texts.put("ink", p.ink());
    texts.put("faint", p.faint());
    texts.put("sound", p.sound());
    texts.put("faulty", p.faulty());
    texts.put("undecided", p.undecided());
    texts.put("accent", p.accent());
    return texts;
  }

  /** WCAG 2.2, 1.4.3: 4.5:1 for text. */
  @Test
  void everyTextColourReadsOnEveryGround() {
    PALETTES.forEach(
        (name, p) ->
            texts(p)
                .forEach(
                    (text, colour) -> {
                      for (Color ground : List.of(p.paper(), p.panel(), p.selected())) {
                        assertThat(Palette.contrast(colour, ground))
                            .as(name + " " + text + " on " + ground)
                            .isGreaterThanOrEqualTo(4.5);
                      }
                    }));
  }

  /** WCAG 2.2, 1.4.11: 3:1 for what one must see to understand. */
  @Test
  void linesAndEdgesShowOnPaper() {
    PALETTES.forEach(
        (name, p) -> {
          assertThat(Palette.contrast(p.line(), p.paper())).as(name).isGreaterThanOrEqualTo(3);
          for (String colour : List.of("white", "black", "yellow", "no such colour")) {
            Color edge = ConductorColour.of(colour).edge(p);
            assertThat(Palette.contrast(edge, p.paper())).as(name).isGreaterThanOrEqualTo(3);
          }
        });
  }

  /**
   * Worked examples: black on white is 21:1 by definition; #767676 on white is the known 4.54:1.
   */
  @Test
  void contrastIsThatOfTheStandard() {
    assertThat(Palette.contrast(Color.BLACK, Color.WHITE)).isCloseTo(21, within(1e-9));
    assertThat(Palette.contrast(new Color(0x767676), Color.WHITE)).isCloseTo(4.54, within(0.005));
    assertThat(Palette.contrast(new Color(0x777777), Color.WHITE)).isCloseTo(4.48, within(0.005));
    assertThat(Palette.luminance(new Color(255, 0, 0))).isCloseTo(0.2126, within(1e-9));
  }

  @Test
  void blackOrWhiteReadsOnAnyGround() {
    for (int rgb = 0; rgb < 1 << 24; rgb += 4999) {
      Color ground = new Color(rgb);
      assertThat(Palette.contrast(Palette.readable(ground), ground)).isGreaterThan(4.5);
    }
  }

  @Test
  void verdictsAreToldApartWithoutRedOrGreenCones() {
    PALETTES.forEach(
        (name, p) -> {
          List<Color> verdicts = List.of(p.sound(), p.faulty(), p.undecided(), p.accent());
          for (int i = 0; i < verdicts.size(); i++) {
            for (int j = i + 1; j < verdicts.size(); j++) {
              for (Map.Entry<String, double[][]> d : DEFICIENCIES.entrySet()) {
                double apart =
                    distance(
                        seen(d.getValue(), verdicts.get(i)), seen(d.getValue(), verdicts.get(j)));
                assertThat(apart)
                    .as(name + " " + i + " and " + j + " with " + d.getKey())
                    .isGreaterThan(TOLD_APART);
              }
            }
          }
        });
  }

  @Test
  void simulatedEyesLeaveGreysAlone() {
    DEFICIENCIES.forEach(
        (name, m) -> {
          double[] grey = seen(m, new Color(128, 128, 128));
          double[] same = lab(linear(new Color(128, 128, 128)));
          assertThat(distance(grey, same)).as(name).isLessThan(0.1);
        });
    // What the matrices are for: red and green of one lightness fall together.
    double[][] deuteranopia = DEFICIENCIES.get("deuteranopia");
    Color red = new Color(190, 80, 70);
    Color green = new Color(120, 130, 60);
    assertThat(distance(seen(deuteranopia, red), seen(deuteranopia, green)))
        .isLessThan(0.5 * distance(lab(linear(red)), lab(linear(green))));
  }

  private static double[] seen(double[][] m, Color colour) {
    double[] rgb = linear(colour);
    double[] out = new double[3];
    for (int i = 0; i < 3; i++) {
      out[i] = Math.max(0, m[i][0] * rgb[0] + m[i][1] * rgb[1] + m[i][2] * rgb[2]);
    }
    return lab(out);
  }

  /** IEC 61966-2-1. */
  private static double[] linear(Color colour) {
    double[] out = new double[3];
    int[] in = {colour.getRed(), colour.getGreen(), colour.getBlue()};
    for (int i = 0; i < 3; i++) {
      double c = in[i] / 255.0;
      out[i] = c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
    }
    return out;
  }

  /** CIE 1976 L*a*b*, D65, from linear sRGB. */
  private static double[] lab(double[] rgb) {
    double x = (0.4124 * rgb[0] + 0.3576 * rgb[1] + 0.1805 * rgb[2]) / 0.9505;
    double y = 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
    double z = (0.0193 * rgb[0] + 0.1192 * rgb[1] + 0.9505 * rgb[2]) / 1.089;
    return new double[] {116 * f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))};
  }

  private static double f(double t) {
    return t > 216.0 / 24389 ? Math.cbrt(t) : (24389.0 / 27 * t + 16) / 116;
  }

  private static double distance(double[] a, double[] b) {
    return Math.sqrt(
        Math.pow(a[0] - b[0], 2) + Math.pow(a[1] - b[1], 2) + Math.pow(a[2] - b[2], 2));
  }
}
