/**
 * The report that is left behind: one tree of blocks made of everything in a job file, set as PDF
 * and as one HTML file, so that the two can't disagree; labels for conductors' ends and a card for
 * inside the panel. docs/report.md says what is on it, docs/decisions/0030-report.md why so. The
 * only package that knows PDFBox and Batik.
 */
@NullMarked
package bellwire.app.document;

import org.jspecify.annotations.NullMarked;
