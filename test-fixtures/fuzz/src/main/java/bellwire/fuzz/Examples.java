package bellwire.fuzz;

import bellwire.app.landing.Described;
import bellwire.app.rehearsal.RehearsalFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;

/** The repository's own examples, as inputs to begin with. */
final class Examples {
  private static final List<String> BENCHES =
      List.of(
          "demo",
          "demo-in-place",
          "demo-vigil",
          "control-faulty",
          "healthy-5",
          "vigil-loose-clamp");

  private Examples() {}

  static List<byte[]> benches() {
    return BENCHES.stream().map(name -> resource("/benches/" + name + ".yaml")).toList();
  }

  /** A short one: two conductors of a demo's. */
  static List<byte[]> surveys() {
    return List.of(resource("survey.json"));
  }

  static byte[] resource(String name) {
    try (InputStream in = Examples.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("not there: resource=" + name);
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static List<byte[]> landings() {
    return bytes(Described.EXAMPLES.stream().map(Described::text));
  }

  static List<byte[]> parts() {
    return bytes(
        Stream.concat(Described.EQUIPMENT.stream(), Described.CONTROLS.stream())
            .map(Described::text));
  }

  static List<byte[]> rehearsals() {
    return bytes(Stream.of("boiler-dry", "heat-only").map(RehearsalFile::text));
  }

  static List<byte[]> rules() {
    return bytes(Stream.of("W1 and not (Y1 or G)", "\"W1 released\" or step heat", "not not so"));
  }

  static List<byte[]> configurations() {
    return bytes(
        Stream.of(
            """
            serial-device = /dev/ttyGS0
            baud = 921600
            # a comment
            tick-micros = 1000
            record-directory = /var/lib/bellwire
            record-bytes = 1073741824
            """));
  }

  static List<byte[]> records() {
    return bytes(
        Stream.of(
            """
            {"bellwire-trace":1,"rehearsal":"boiler-dry","feed":"dry","terminals":["W1"]}
            {"board":"A","agent":"0.1","self-check":""}
            {"at":1000,"delta":[0,1,1000,99],"late":[5,100],"took":[9,100],"word":[0,60,1,40]}
            {"begun":"begin","from":100000,"to":100000,"reason":""}
            {"at":101000,"delta":[0,1,1000,99],"late":[5,100],"took":[9,100],"word":[1,100]}
            {"over":"begin","next":"GO_ON"}
            {"observed":"well","step":"begin"}
            {"finished":200000}
            """));
  }

  /** A log of two boots, a segment each and the note, as a script. */
  static List<byte[]> logs() {
    return List.of(LoggedFrames.script());
  }

  private static List<byte[]> bytes(Stream<String> texts) {
    return texts.map(text -> text.getBytes(StandardCharsets.UTF_8)).toList();
  }
}
