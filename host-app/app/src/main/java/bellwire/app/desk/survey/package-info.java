/** The desk's page of surveys: the cable's facts, a survey live, its result, those before it. */
@NullMarked
package bellwire.app.desk.survey;

import org.jspecify.annotations.NullMarked;
