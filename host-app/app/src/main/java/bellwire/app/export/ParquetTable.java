package bellwire.app.export;

import bellwire.app.export.Table.Column;
import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.apache.parquet.column.ParquetProperties.WriterVersion;
import org.apache.parquet.conf.ParquetConfiguration;
import org.apache.parquet.conf.PlainParquetConfiguration;
import org.apache.parquet.hadoop.ParquetFileWriter;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.hadoop.api.WriteSupport;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;
import org.apache.parquet.io.LocalOutputFile;
import org.apache.parquet.io.OutputFile;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.io.api.RecordConsumer;
import org.apache.parquet.schema.LogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.TimeUnit;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;
import org.apache.parquet.schema.Types;
import org.jspecify.annotations.Nullable;

/** A Parquet file: columns packed each for itself, with the facts and each column's meaning. */
final class ParquetTable implements TableWriter {
  /** What the library is to be told of a row: nothing, for it stands in the writer's fields. */
  private static final Object ROW = new Object();

  private final List<Column> columns;
  private final long[] numbers;
  private final String[] texts;
  private final ParquetWriter<Object> writer;
  private int next;

  ParquetTable(Path file, Table table) throws IOException {
    columns = table.columns();
    numbers = new long[columns.size()];
    texts = new String[columns.size()];
    Map<String, String> facts = new HashMap<>();
    table.facts().forEach((name, value) -> facts.put("bellwire." + name, value));
    columns.forEach(column -> facts.put("bellwire.column." + column.name(), column.meaning()));
    writer =
        new Builder(new LocalOutputFile(file), new Rows(schema(table), facts))
            .withConf(new PlainParquetConfiguration())
            .withWriteMode(ParquetFileWriter.Mode.OVERWRITE)
            .withWriterVersion(WriterVersion.PARQUET_2_0)
            .withCodecFactory(new GzipPages())
            .withCompressionCodec(CompressionCodecName.GZIP)
            .build();
  }

  private static MessageType schema(Table table) {
    Types.MessageTypeBuilder schema = Types.buildMessage();
    for (Column column : table.columns()) {
      switch (column.type()) {
        case SHORT -> schema.required(PrimitiveTypeName.INT32).named(column.name());
        case LONG -> schema.required(PrimitiveTypeName.INT64).named(column.name());
        case UTC ->
            schema
                .required(PrimitiveTypeName.INT64)
                .as(LogicalTypeAnnotation.timestampType(true, TimeUnit.MICROS))
                .named(column.name());
        case TEXT ->
            schema
                .required(PrimitiveTypeName.BINARY)
                .as(LogicalTypeAnnotation.stringType())
                .named(column.name());
        case FLAG -> schema.required(PrimitiveTypeName.BOOLEAN).named(column.name());
      }
    }
    return schema.named(table.name());
  }

  @Override
  public ParquetTable number(long value) {
    numbers[next++] = value;
    return this;
  }

  @Override
  public ParquetTable utc(long unixMicros) {
    return number(unixMicros);
  }

  @Override
  public ParquetTable text(String value) {
    texts[next++] = value;
    return this;
  }

  @Override
  public ParquetTable flag(boolean value) {
    return number(value ? 1 : 0);
  }

  @Override
  public void endRow() throws IOException {
    if (next != columns.size()) {
      throw new IllegalStateException("row of another length: values=" + next);
    }
    next = 0;
    writer.write(ROW);
  }

  @Override
  public void close() throws IOException {
    writer.close();
  }

  private void write(RecordConsumer to) {
    to.startMessage();
    for (int i = 0; i < numbers.length; i++) {
      Column column = columns.get(i);
      to.startField(column.name(), i);
      switch (column.type()) {
        case SHORT -> to.addInteger(Math.toIntExact(numbers[i]));
        case LONG, UTC -> to.addLong(numbers[i]);
        case TEXT -> to.addBinary(Binary.fromString(texts[i]));
        case FLAG -> to.addBoolean(numbers[i] != 0);
      }
      to.endField(column.name(), i);
    }
    to.endMessage();
  }

  /** Hands the row in the fields over. */
  private final class Rows extends WriteSupport<Object> {
    private final MessageType schema;
    private final Map<String, String> facts;
    private @Nullable RecordConsumer consumer;

    Rows(MessageType schema, Map<String, String> facts) {
      this.schema = schema;
      this.facts = facts;
    }

    @Override
    @Deprecated
    public WriteContext init(org.apache.hadoop.conf.Configuration configuration) {
      return new WriteContext(schema, facts);
    }

    @Override
    public WriteContext init(ParquetConfiguration configuration) {
      return new WriteContext(schema, facts);
    }

    @Override
    public void prepareForWrite(RecordConsumer to) {
      consumer = to;
    }

    @Override
    public void write(Object row) {
      ParquetTable.this.write(Objects.requireNonNull(consumer, "prepareForWrite comes first"));
    }
  }

  private static final class Builder extends ParquetWriter.Builder<Object, Builder> {
    private final WriteSupport<Object> rows;

    Builder(OutputFile file, WriteSupport<Object> rows) {
      super(file);
      this.rows = rows;
    }

    @Override
    protected Builder self() {
      return this;
    }

    @Override
    @Deprecated
    protected WriteSupport<Object> getWriteSupport(org.apache.hadoop.conf.Configuration none) {
      return rows;
    }

    @Override
    protected WriteSupport<Object> getWriteSupport(ParquetConfiguration none) {
      return rows;
    }
  }
}
