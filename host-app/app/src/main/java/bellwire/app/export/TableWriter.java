package bellwire.app.export;

import java.io.Closeable;
import java.io.IOException;

/** Takes a table's values, row by row, in the order of its columns. */
interface TableWriter extends Closeable {
  /** For a column of 32 or 64 bit. */
  TableWriter number(long value) throws IOException;

  TableWriter utc(long unixMicros) throws IOException;

  TableWriter text(String value) throws IOException;

  TableWriter flag(boolean value) throws IOException;

  void endRow() throws IOException;
}
