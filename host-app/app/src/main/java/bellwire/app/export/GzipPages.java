package bellwire.app.export;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.compression.CompressionCodecFactory;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;

/** Packs Parquet's pages by the JDK (RFC 1952); the library's own way to would need Hadoop. */
final class GzipPages implements CompressionCodecFactory {
  @Override
  public BytesInputCompressor getCompressor(CompressionCodecName codec) {
    return new BytesInputCompressor() {
      @Override
      public BytesInput compress(BytesInput plain) throws IOException {
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(packed)) {
          plain.writeAllTo(gzip);
        }
        return BytesInput.from(packed.toByteArray());
      }

      @Override
      public CompressionCodecName getCodecName() {
        return CompressionCodecName.GZIP;
      }

      @Override
      public void release() {}
    };
  }

  @Override
  public BytesInputDecompressor getDecompressor(CompressionCodecName codec) {
    return new BytesInputDecompressor() {
      @Override
      public BytesInput decompress(BytesInput packed, int size) throws IOException {
        try (GZIPInputStream gzip = new GZIPInputStream(packed.toInputStream())) {
          return BytesInput.from(gzip.readNBytes(size));
        }
      }

      @Override
      public void decompress(ByteBuffer packed, int packedSize, ByteBuffer plain, int size)
          throws IOException {
        byte[] bytes = new byte[packedSize];
        packed.get(bytes);
        plain.put(decompress(BytesInput.from(bytes), size).toByteArray());
      }

      @Override
      public void release() {}
    };
  }

  @Override
  public void release() {}
}
