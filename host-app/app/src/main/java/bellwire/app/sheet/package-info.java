/**
 * What a survey's JSON tells (docs/survey-json.md), as plain records for drawings and the report.
 */
@NullMarked
package bellwire.app.sheet;

import org.jspecify.annotations.NullMarked;
