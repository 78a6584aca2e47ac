package bellwire.app.job;

/**
 * One cable of the job.
 *
 * @param id its key; 0 of a new one
 * @param name in the trade's way, such as 18-5
 * @param gauge such as 18 AWG or 0.75 mm2; empty where not known
 * @param metres its length; NaN where not known
 * @param celsius its temperature; NaN where not known
 * @param nearPlace where the equipment is
 * @param farPlace where the room control hangs
 */
public record CableRow(
    long id,
    String name,
    String gauge,
    double metres,
    double celsius,
    String nearPlace,
    String farPlace,
    String note) {}
