package bellwire.app.document;

import bellwire.app.document.type.Faces;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.LinkedHashSet;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Characters of a job that no font here has: on paper they are boxes with their numbers. */
public final class Undrawn {
  private static final int MOST_NAMED = 12;

  private Undrawn() {}

  /** A sentence that names them and says what to do; empty where all can be drawn. */
  public static String words(ReportContents contents) {
    Set<Integer> boxes = new LinkedHashSet<>();
    try (Faces faces = new Faces()) {
      written(contents)
          .flatMapToInt(String::codePoints)
          .filter(c -> !faces.draws(c))
          .forEach(boxes::add);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    if (boxes.isEmpty()) {
      return "";
    }
    String named =
        boxes.stream()
            .limit(MOST_NAMED)
            .map(c -> Character.toString(c) + String.format(Locale.ROOT, " (U+%04X)", c))
            .collect(Collectors.joining(", "));
    return "On paper these are boxes, for no font here has them: "
        + named
        + (boxes.size() > MOST_NAMED ? " and " + (boxes.size() - MOST_NAMED) + " more" : "")
        + "; write them in another script, or hand over the page for a phone, which shows them";
  }

  /** What people wrote. */
  private static Stream<String> written(ReportContents contents) {
    Stream.Builder<String> all = Stream.builder();
    contents.facts().values().forEach(all);
    contents.acts().forEach(a -> all.add(a.what()).add(a.reading()).add(a.by()));
    for (ReportContents.Cable cable : contents.cables()) {
      all.add(cable.row().name()).add(cable.row().nearPlace()).add(cable.row().farPlace());
      all.add(cable.row().gauge()).add(cable.row().note());
      cable.conductors().forEach(c -> all.add(c.nearColour()).add(c.farColour()).add(c.note()));
    }
    contents.landings().forEach(l -> all.add(l.row().text()));
    contents.rehearsals().forEach(r -> all.add(r.row().json()));
    contents.ticks().forEach(t -> all.add(t.by()).add(t.note()));
    contents.photos().forEach(p -> all.add(p.row().caption()));
    for (ReportContents.Vigil vigil : contents.vigils()) {
      vigil
          .stored()
          .ifPresent(
              stored -> {
                all.add(stored.watched().note());
                stored.watched().names().values().forEach(all);
                stored.marks().forEach(mark -> all.add(mark.text()));
              });
    }
    return all.build();
  }
}
