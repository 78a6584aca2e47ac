package bellwire.board;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;

/**
 * The coded far-end plug's nominal values, read from {@code hardware-notes/coded-plug.yaml}, the
 * one place for them. Positions count from 1 to 16.
 */
public final class CodedPlug {
  public static final int POSITIONS = 16;
  private static final CodedPlug NOMINAL = load();

  private final double[] armOhms;
  private final double tolerance;
  private final double calibrationError;
  private final double ppmPerKelvin;

  private CodedPlug(JsonNode root) {
    JsonNode arms = root.path("arm-ohms");
    if (arms.size() != POSITIONS) {
      throw new IllegalStateException("coded plug arms=" + arms.size());
    }
    armOhms = new double[POSITIONS];
    for (int i = 0; i < POSITIONS; i++) {
      armOhms[i] = arms.get(i).asDouble();
    }
    tolerance = root.path("tolerance").asDouble();
    calibrationError = root.path("calibration-error").asDouble();
    ppmPerKelvin = root.path("ppm-per-kelvin").asDouble();
  }

  public static CodedPlug nominal() {
    return NOMINAL;
  }

  /** Nominal resistance from a far position, 1 to 16, to the plug's common point, at 20 °C. */
  public double armOhms(int position) {
    if (position < 1 || position > POSITIONS) {
      throw new IllegalArgumentException("position=" + position);
    }
    return armOhms[position - 1];
  }

  /** Relative half-width of an uncalibrated arm, rectangular. */
  public double tolerance() {
    return tolerance;
  }

  /** Relative half-width of a stored, calibrated arm, rectangular. */
  public double calibrationError() {
    return calibrationError;
  }

  /** Half-width of an arm's temperature coefficient against 20 °C, rectangular. */
  public double ppmPerKelvin() {
    return ppmPerKelvin;
  }

  private static CodedPlug load() {
    try (InputStream in = CodedPlug.class.getResourceAsStream("coded-plug.yaml")) {
      if (in == null) {
        throw new IllegalStateException("missing resource coded-plug.yaml");
      }
      return new CodedPlug(new YAMLMapper().readTree(in));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
