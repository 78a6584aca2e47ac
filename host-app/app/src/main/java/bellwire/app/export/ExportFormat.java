package bellwire.app.export;

import java.io.IOException;
import java.nio.file.Path;

/** What an export is written as. */
public enum ExportFormat {
  CSV(".csv") {
    @Override
    TableWriter writer(Path file, Table table) throws IOException {
      return new CsvTable(file, table);
    }
  },
  PARQUET(".parquet") {
    @Override
    TableWriter writer(Path file, Table table) throws IOException {
      return new ParquetTable(file, table);
    }
  };

  private final String ending;

  ExportFormat(String ending) {
    this.ending = ending;
  }

  abstract TableWriter writer(Path file, Table table) throws IOException;

  String fileName(Table table) {
    return table.name() + ending;
  }
}
