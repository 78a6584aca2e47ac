package bellwire.benchmarks;

import bellwire.link.DataFrame;
import bellwire.link.FrameCodec;
import bellwire.link.FrameReader;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.cbor.databind.CBORMapper;
import com.google.protobuf.CodedInputStream;
import com.google.protobuf.CodedOutputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A frame of 200 conversions, from the bytes of the line to arrays: COBS, CRC-32C, CBOR and the
 * checks of every field. The peers get the item without stuffing and checksum, and check nothing.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 7, time = 1)
public class FrameDecoding {
  private static final int CONVERSIONS = 200;
  private static final long SEED = 9;

  private final Message.Samples sent = drawn(new Random(SEED));
  private final byte[] item = MessageCodec.encode(new DataFrame(7, 1_000_000, sent));
  private final byte[] frame = FrameCodec.encode(item);
  private final byte[] varints = varints(sent);
  private final CBORMapper mapper = new CBORMapper();

  public FrameDecoding() {
    same(ours());
    try {
      same(cborLibraryAlone());
      same(protobuf());
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Message.Samples drawn(Random random) {
    int n = CONVERSIONS;
    int[] step = new int[n];
    int[] code = new int[n];
    long[] micros = new long[n];
    long[] chain = new long[n];
    int[] setup = new int[n];
    int[] flags = new int[n];
    for (int i = 0; i < n; i++) {
      step[i] = i;
      code[i] = random.nextInt(-(1 << 23), 1 << 23);
      micros[i] = 3_600_000_000L + 1100L * i;
      chain[i] = random.nextLong(1L << 51);
      setup[i] = 0x1234;
    }
    return new Message.Samples(3, step, code, micros, chain, setup, flags);
  }

  private void same(Message.Samples got) {
    boolean same =
        got.program() == sent.program()
            && Arrays.equals(got.step(), sent.step())
            && Arrays.equals(got.code(), sent.code())
            && Arrays.equals(got.deviceMicros(), sent.deviceMicros())
            && Arrays.equals(got.chain(), sent.chain())
            && Arrays.equals(got.setup(), sent.setup())
            && Arrays.equals(got.flags(), sent.flags());
    if (!same) {
      throw new IllegalStateException("decoded=" + got);
    }
  }

  @Benchmark
  public final Message.Samples ours() {
    Message.Samples[] got = new Message.Samples[1];
    new FrameReader()
        .feed(
            frame,
            0,
            frame.length,
            whole -> {
              try {
                got[0] = (Message.Samples) ((DataFrame) MessageCodec.decode(whole)).message();
              } catch (Exception e) {
                throw new IllegalStateException(e);
              }
            });
    return got[0];
  }

  /** Its tree, and the typed arrays unpacked. */
  @Benchmark
  public final Message.Samples cborLibraryAlone() throws IOException {
    JsonNode m = mapper.readTree(item).get(3);
    return new Message.Samples(
        m.get(1).asLong(),
        ints(m.get(2).binaryValue(), CONVERSIONS),
        ints(m.get(3).binaryValue(), CONVERSIONS),
        longs(m.get(4).binaryValue(), CONVERSIONS),
        longs(m.get(5).binaryValue(), CONVERSIONS),
        ints(m.get(6).binaryValue(), CONVERSIONS),
        ints(m.get(7).binaryValue(), CONVERSIONS));
  }

  private static int[] ints(byte[] bytes, int count) {
    ByteBuffer in = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    int[] out = new int[count];
    int width = bytes.length / count;
    for (int i = 0; i < count; i++) {
      out[i] = width == 1 ? in.get() & 0xFF : width == 2 ? in.getShort() & 0xFFFF : in.getInt();
    }
    return out;
  }

  private static long[] longs(byte[] bytes, int count) {
    ByteBuffer in = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    long[] out = new long[count];
    int width = bytes.length / count;
    for (int i = 0; i < count; i++) {
      out[i] = width == 4 ? in.getInt() & 0xFFFF_FFFFL : in.getLong();
    }
    return out;
  }

  /** As the code that protoc writes reads packed fields 1 to 7. */
  @Benchmark
  public final Message.Samples protobuf() throws IOException {
    CodedInputStream in = CodedInputStream.newInstance(varints);
    long program = 0;
    int[][] ints = new int[8][CONVERSIONS];
    long[][] longs = new long[8][CONVERSIONS];
    for (int tag = in.readTag(); tag != 0; tag = in.readTag()) {
      int field = tag >>> 3;
      if (field == 1) {
        program = in.readUInt64();
        continue;
      }
      int limit = in.pushLimit(in.readRawVarint32());
      for (int i = 0; in.getBytesUntilLimit() > 0; i++) {
        switch (field) {
          case 3 -> ints[3][i] = in.readSInt32();
          case 4, 5 -> longs[field][i] = in.readUInt64();
          default -> ints[field][i] = in.readUInt32();
        }
      }
      in.popLimit(limit);
    }
    return new Message.Samples(program, ints[2], ints[3], longs[4], longs[5], ints[6], ints[7]);
  }

  private static byte[] varints(Message.Samples samples) {
    try {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      CodedOutputStream out = CodedOutputStream.newInstance(bytes);
      out.writeUInt64(1, samples.program());
      for (int field = 2; field <= 7; field++) {
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        CodedOutputStream inner = CodedOutputStream.newInstance(packed);
        for (int i = 0; i < CONVERSIONS; i++) {
          switch (field) {
            case 2 -> inner.writeUInt32NoTag(samples.step()[i]);
            case 3 -> inner.writeSInt32NoTag(samples.code()[i]);
            case 4 -> inner.writeUInt64NoTag(samples.deviceMicros()[i]);
            case 5 -> inner.writeUInt64NoTag(samples.chain()[i]);
            case 6 -> inner.writeUInt32NoTag(samples.setup()[i]);
            default -> inner.writeUInt32NoTag(samples.flags()[i]);
          }
        }
        inner.flush();
        out.writeByteArray(field, packed.toByteArray());
      }
      out.flush();
      return bytes.toByteArray();
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }
}
