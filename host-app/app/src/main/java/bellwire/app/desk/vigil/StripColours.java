package bellwire.app.desk.vigil;

import java.awt.Color;

/**
 * What a strip chart is drawn with.
 *
 * @param paper behind everything
 * @param ink names, times, lines
 * @param faint the lanes' ground lines
 * @param gap hatching of what was not watched
 * @param busy open, touching, or a call
 * @param band around a trend's line
 * @param mark a person's
 */
public record StripColours(
    Color paper, Color ink, Color faint, Color gap, Color busy, Color band, Color mark) {}
