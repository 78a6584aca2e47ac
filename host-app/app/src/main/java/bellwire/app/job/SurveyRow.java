package bellwire.app.job;

/**
 * A survey that was done.
 *
 * @param id its key; 0 before it is in the file
 * @param cable its cable's key
 * @param inPlace with the conductors still landed
 * @param atUnixMicros when it ended, by the wall clock
 * @param json its result, as docs/survey-json.md has it
 * @param readings the raw readings; may be empty
 */
@SuppressWarnings("ArrayRecordComponent") // Nobody compares them.
public record SurveyRow(
    long id,
    long cable,
    boolean inPlace,
    Stage stage,
    long atUnixMicros,
    String json,
    byte[] readings) {}
