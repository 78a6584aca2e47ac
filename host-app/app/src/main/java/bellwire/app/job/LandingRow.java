package bellwire.app.job;

/**
 * A landing plan as it stood.
 *
 * @param id its key; 0 of a new one
 * @param cable its cable's key; 0 where it belongs to none
 * @param atUnixMicros when it was last changed, by the wall clock
 * @param text a landing file that needs no other, as docs/landing-files.md has it
 */
public record LandingRow(long id, long cable, long atUnixMicros, String text) {}
