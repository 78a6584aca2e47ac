package bellwire.app.document.block;

/**
 * A photograph, upright and scaled down, as JPEG.
 *
 * @param jpeg not modified by anybody
 * @param width in pixels
 * @param height in pixels
 */
@SuppressWarnings("ArrayRecordComponent") // bytes that are only passed on
public record Picture(byte[] jpeg, int width, int height) {}
