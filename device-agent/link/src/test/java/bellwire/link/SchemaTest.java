package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** docs/link.cddl, the records and what the codec writes say the same. */
class SchemaTest {
  private static final Path SCHEMA = Path.of("..", "..", "docs", "link.cddl");

  /** RFC 8746, section 2.1: 0b010_f_s_e_ll; here all with f 0, little-endian (e 1), or one byte. */
  private static final Map<String, Long> TAGS =
      Map.of(
          "uint8-array", 0b010_0_0_0_00L,
          "uint16-array", 0b010_0_0_1_01L,
          "uint32-array", 0b010_0_0_1_10L,
          "uint64-array", 0b010_0_0_1_11L,
          "sint32-array", 0b010_0_1_1_10L);

  private static final Map<String, String> RULES = new LinkedHashMap<>();

  @BeforeAll
  static void readSchema() throws IOException {
    String text = Files.readString(SCHEMA).replaceAll(";[^\n]*", "");
    Matcher rule = Pattern.compile("(?m)^([a-z0-9-]+) =((?:(?!^[a-z0-9-]+ =).|\n)*)").matcher(text);
    while (rule.find()) {
      RULES.put(rule.group(1), rule.group(2).strip());
    }
  }

  @ParameterizedTest
  @EnumSource(MessageType.class)
  void aMessageHasItsNumberAndItsFieldsInTheRecordsOrder(MessageType type) {
    List<String> fields = fields(kebab(type.record().getSimpleName()));
    assertThat(fields.get(0)).isEqualTo(Integer.toString(type.number()));
    assertThat(names(fields.subList(1, fields.size()))).isEqualTo(components(type.record()));
  }

  @Test
  void partsHaveTheirFieldsInTheRecordsOrder() {
    assertThat(names(fields("interlock"))).isEqualTo(components(Message.Interlock.class));
    assertThat(names(fields("scan-step"))).isEqualTo(components(ScanStep.class));
    assertThat(names(fields("tap"))).isEqualTo(components(Tap.class));
  }

  @Test
  void everyMessageIsInTheCodecAndInTheSchemasChoices() {
    Set<Class<?>> records = new HashSet<>();
    for (Class<?> side : Message.class.getPermittedSubclasses()) {
      records.addAll(Arrays.asList(side.getPermittedSubclasses()));
    }
    records.add(DataFrame.class);
    Set<Class<?>> known = new HashSet<>();
    Stream.of(MessageType.values()).forEach(type -> known.add(type.record()));
    assertThat(known).isEqualTo(records);
    assertChoice("from-host", Message.FromHost.class);
    assertChoice("from-agent", Message.FromAgent.class);
    assertChoice("data", Message.Data.class);
  }

  @Test
  void constantsHaveTheirNumbers() {
    assertConstants("range", Range.values());
    assertConstants("check", Check.values());
    assertConstants("tap-kind", Tap.Kind.values());
    assertConstants("rate", Rate.values());
    assertConstants("vigil-kind", Message.KeepVigil.Kind.values());
    assertConstants("outcome", Message.Ended.Outcome.values());
  }

  @Test
  void typedArraysHaveTheTagsOfRfc8746() {
    TAGS.forEach((name, tag) -> assertThat(RULES.get(name)).isEqualTo("#6." + tag + "(bstr)"));
    // Restated from RFC 8746, section 6, table 3.
    assertThat(TAGS)
        .containsEntry("uint8-array", 64L)
        .containsEntry("uint16-array", 69L)
        .containsEntry("uint32-array", 70L)
        .containsEntry("uint64-array", 71L)
        .containsEntry("sint32-array", 78L);
  }

  @Test
  void limitsAreTheCodes() {
    assertThat(RULES.get("run")).contains("[1*" + Message.Run.MAX_STEPS + " scan-step]");
    assertThat(RULES.get("scan-step"))
        .contains("settle-micros: 0.." + ScanStep.MAX_SETTLE_MICROS + ",")
        .contains("repeats: 1.." + ScanStep.MAX_REPEATS + ",");
    assertThat(RULES.get("keep-vigil"))
        .contains("length-micros: 1.." + Message.KeepVigil.MOST_MICROS + ",")
        .contains("[0*" + Message.Run.MAX_STEPS + " scan-step]");
    assertThat(RULES.get("port-mask")).isEqualTo("0.." + ((1 << ScanStep.PORTS) - 1));
    assertThat(RULES.get("uint32")).isEqualTo("0.." + DataFrame.MAX_SEQUENCE);
    assertThat(RULES.get("tap")).contains("port: -1.." + ScanStep.METAL + ",");
  }

  static List<Record> oneOfEach() {
    return TestMessages.oneOfEach();
  }

  /** The order on the wire, read by a reader that is not the codec's. */
  @ParameterizedTest
  @MethodSource("oneOfEach")
  void theCodecWritesWhatTheSchemaSays(Record message) throws Exception {
    Object written;
    if (message instanceof Message.Data data) {
      List<?> frame = (List<?>) PlainCbor.read(MessageCodec.encode(new DataFrame(3, 4, data)));
      assertThat(frame.subList(0, 3)).isEqualTo(List.of(12L, 3L, 4L));
      written = frame.get(3);
    } else {
      written = PlainCbor.read(MessageCodec.encode((Message) message));
    }
    String rule = kebab(message.getClass().getSimpleName());
    List<String> fields = fields(rule);
    List<?> items = (List<?>) written;
    assertThat(items).hasSize(fields.size());
    assertThat(items.get(0)).isEqualTo(Long.valueOf(fields.get(0)));
    assertFields(message, fields.subList(1, fields.size()), items.subList(1, items.size()));
  }

  private static void assertFields(Record record, List<String> fields, List<?> items)
      throws ReflectiveOperationException {
    RecordComponent[] components = record.getClass().getRecordComponents();
    assertThat(items).hasSize(components.length);
    for (int i = 0; i < components.length; i++) {
      String type = fields.get(i).split(": ", 2)[1];
      components[i].getAccessor().setAccessible(true);
      Object value = components[i].getAccessor().invoke(record);
      if (value instanceof Message.Data inner) {
        List<String> rule = fields(kebab(inner.getClass().getSimpleName()));
        List<?> parts = (List<?>) items.get(i);
        assertThat(parts.get(0)).isEqualTo(Long.valueOf(rule.get(0)));
        assertFields((Record) inner, rule.subList(1, rule.size()), parts.subList(1, parts.size()));
      } else if (value instanceof Record inner) {
        assertFields(inner, fields(type), (List<?>) items.get(i));
      } else if (value instanceof List<?> steps) {
        for (int j = 0; j < steps.size(); j++) {
          Object step = ((List<?>) items.get(i)).get(j);
          assertFields((Record) steps.get(j), fields("scan-step"), (List<?>) step);
        }
      } else if (TAGS.containsKey(type)) {
        assertTyped(type, value, (PlainCbor.Tagged) items.get(i));
      } else {
        Object expected =
            value instanceof Enum<?> constant
                ? Long.valueOf(constant.ordinal())
                : value instanceof Number number ? (Object) number.longValue() : value;
        assertThat(items.get(i)).as(components[i].getName()).isEqualTo(expected);
      }
    }
  }

  private static void assertTyped(String type, Object values, PlainCbor.Tagged found) {
    assertThat(found.tag()).isEqualTo(TAGS.get(type));
    int width = Integer.parseInt(type.replaceAll("[^0-9]", "")) / 8;
    long[] longs =
        values instanceof int[] ints
            ? Arrays.stream(ints).asLongStream().toArray()
            : (long[]) values;
    ByteBuffer expected = ByteBuffer.allocate(longs.length * width);
    for (long value : longs) {
      byte[] eight = ByteBuffer.allocate(8).order(ByteOrder.LITTLE_ENDIAN).putLong(value).array();
      expected.put(eight, 0, width);
    }
    assertThat(found.bytes()).isEqualTo(expected.array());
  }

  private static void assertChoice(String rule, Class<?> side) {
    assertThat(RULES.get(rule).split("\\s*/\\s*"))
        .containsExactlyInAnyOrderElementsOf(
            Arrays.stream(side.getPermittedSubclasses())
                .map(type -> kebab(type.getSimpleName()))
                .toList());
  }

  private static void assertConstants(String rule, Enum<?>[] values) {
    List<String> expected = new ArrayList<>();
    for (Enum<?> value : values) {
      String name = value.name().toLowerCase(Locale.ROOT).replace('_', '-');
      expected.add(name + ": " + value.ordinal());
    }
    String body = RULES.get(rule);
    assertThat(body).startsWith("&(").endsWith(")");
    assertThat(body.substring(2, body.length() - 1).split(",\\s*"))
        .containsExactlyElementsOf(expected);
  }

  /** The fields of an array rule, without the extension point that must end it. */
  private static List<String> fields(String rule) {
    String body = RULES.get(rule);
    assertThat(body).as(rule).startsWith("[").endsWith(", * any]");
    return List.of(body.substring(1, body.length() - ", * any]".length()).split(",\\s*"));
  }

  private static List<String> names(List<String> fields) {
    return fields.stream().map(field -> field.split(":", 2)[0]).toList();
  }

  private static List<String> components(Class<?> record) {
    return Arrays.stream(record.getRecordComponents())
        .map(component -> kebab(component.getName()))
        .toList();
  }

  private static String kebab(String camel) {
    return camel.replaceAll("(?<=[a-z])(?=[A-Z])", "-").toLowerCase(Locale.ROOT);
  }
}
