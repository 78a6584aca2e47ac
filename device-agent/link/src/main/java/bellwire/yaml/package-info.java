/**
 * YAML files written by people: values read with their units, and every mistake told with file,
 * line and remedy.
 */
@NullMarked
package bellwire.yaml;

import org.jspecify.annotations.NullMarked;
