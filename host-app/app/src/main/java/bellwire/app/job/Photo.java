package bellwire.app.job;

/**
 * A photograph, without its picture.
 *
 * @param id its key; 0 before it is in the file
 * @param caption may be empty
 * @param atUnixMicros when it was taken or, where that is not known, added; by the wall clock
 * @param mime image/jpeg or image/png
 * @param bytes its length
 */
public record Photo(
    long id, Stage stage, String caption, long atUnixMicros, String mime, long bytes) {}
