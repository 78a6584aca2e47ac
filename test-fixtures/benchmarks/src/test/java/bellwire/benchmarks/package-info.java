/** What Bellwire does beside what others do of the same work, in one run: one table. */
@NullMarked
package bellwire.benchmarks;

import org.jspecify.annotations.NullMarked;
