package bellwire.app.job;

import bellwire.app.job.Packed.Place;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * The samples that one commit adds to a stream's open span. A row of the journal holds those of all
 * streams, one behind the other: stream, span, length, samples.
 *
 * @param index of the span
 */
record JournalPart(Stream stream, long index, Span span) {
  private static final int MOST_BYTES = 1 << 25;

  static Packed packed(Place place, List<JournalPart> parts) {
    ByteSink sink = new ByteSink();
    for (JournalPart part : parts) {
      byte[] samples = part.span.encoded().taken();
      sink.number(part.stream.id());
      sink.signed(part.index);
      sink.number(samples.length);
      sink.bytes(samples);
    }
    return Packed.bare(place, sink.taken());
  }

  static List<JournalPart> parts(VigilTables.Row row, Map<Long, Stream> streams) throws Damage {
    row.packed().check(row.place());
    List<JournalPart> parts = new ArrayList<>();
    ByteSource source = new ByteSource(row.packed().payload());
    while (!source.atEnd()) {
      Stream stream = streams.get(source.number());
      long index = source.signed();
      byte[] samples = source.bytes(source.count(MOST_BYTES));
      if (stream == null) {
        throw new Damage("of no stream of this vigil");
      }
      parts.add(new JournalPart(stream, index, Span.decoded(stream, samples)));
    }
    return parts;
  }
}
