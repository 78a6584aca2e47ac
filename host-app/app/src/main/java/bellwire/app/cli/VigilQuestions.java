package bellwire.app.cli;

import bellwire.app.report.Paragraph;
import bellwire.app.vigil.VigilSite;
import java.io.PrintWriter;
import java.time.ZonedDateTime;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;

/** Asks at the terminal what a building without its heat has to be asked. */
final class VigilQuestions {
  private VigilQuestions() {}

  /** What was said on the command line; null where not. */
  record Said(@Nullable String people, @Nullable String coldest, @Nullable String heatBy) {}

  /** Asks for what was not said; null where nobody answers. */
  static @Nullable VigilSite ask(
      Said said, Answers answers, BooleanSupplier interrupted, PrintWriter out, ZonedDateTime now) {
    String people = said.people();
    while (people == null || people.isBlank()) {
      people = typed("Who is in the building meanwhile?", answers, interrupted, out);
      if (people == null) {
        return null;
      }
    }
    OptionalDouble coldest =
        said.coldest() == null ? OptionalDouble.empty() : VigilSite.celsius(said.coldest());
    while (coldest.isEmpty()) {
      String words =
          typed(
              "How cold will it be outdoors, at worst? [such as '8 C' or '46 F']",
              answers,
              interrupted,
              out);
      if (words == null) {
        return null;
      }
      coldest = VigilSite.celsius(words);
    }
    Optional<ZonedDateTime> heatBy =
        said.heatBy() == null ? Optional.empty() : VigilSite.next(said.heatBy(), now);
    while (heatBy.isEmpty()) {
      String words =
          typed("By when must the heat be back? [such as '17:30']", answers, interrupted, out);
      if (words == null) {
        return null;
      }
      heatBy = VigilSite.next(words, now);
    }
    return new VigilSite(people, coldest.getAsDouble(), heatBy.get());
  }

  private static @Nullable String typed(
      String question, Answers answers, BooleanSupplier interrupted, PrintWriter out) {
    Paragraph.hanging("  ", question).forEach(out::println);
    out.flush();
    return answers.await(interrupted);
  }
}
