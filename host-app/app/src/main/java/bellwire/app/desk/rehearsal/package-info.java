/** Page 5: a control taken through its functions, step by step. */
@NullMarked
package bellwire.app.desk.rehearsal;

import org.jspecify.annotations.NullMarked;
