package bellwire.app.drawing;

import java.awt.geom.Rectangle2D;

/**
 * A part of a drawing that can be clicked or focused.
 *
 * @param key such as {@code conductor:P3}, {@code pair:P1-P5} or {@code near:R}; unique in its
 *     drawing
 * @param bounds in the drawing's units
 * @param words name, value, standing and reason: its accessible name
 */
public record Spot(String key, Rectangle2D bounds, String words) {}
