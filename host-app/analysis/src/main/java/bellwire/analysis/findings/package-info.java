/**
 * What can be found, seen and done, as data: every kind of finding with its title and remedy, and
 * the symptoms people tell of. The one place for these words, shared by survey, comparison, landing
 * check and reports.
 */
@NullMarked
package bellwire.analysis.findings;

import org.jspecify.annotations.NullMarked;
