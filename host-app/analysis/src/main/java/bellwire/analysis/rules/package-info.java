/**
 * Rules about timed facts, after the published specification patterns, and their verdicts by
 * possible worlds. docs/rules.md defines them.
 */
@NullMarked
package bellwire.analysis.rules;

import org.jspecify.annotations.NullMarked;
