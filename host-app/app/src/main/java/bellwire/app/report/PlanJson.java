package bellwire.app.report;

import bellwire.analysis.landing.ColourConvention;
import bellwire.analysis.landing.Found;
import bellwire.analysis.landing.Proposal;
import bellwire.analysis.landing.Replacement;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** A proposed landing as JSON, version 1; docs/landing-files.md states it. */
public final class PlanJson {
  public static final int VERSION = 1;

  private static final ObjectMapper MAPPER =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private PlanJson() {}

  /** The document as text, ending in a newline. */
  public static String text(Replacement replacement, Proposal proposal, List<String> cautions)
      throws IOException {
    ObjectNode root = MAPPER.createObjectNode();
    root.put("bellwire-plan", VERSION);
    ArrayNode said = root.putArray("cautions");
    cautions.forEach(said::add);
    root.put("equipment", replacement.equipment().title());
    root.put("control", replacement.control().title());
    root.put("cable", replacement.cable().name());
    root.put("proved", proposal.proved());
    root.put("schemes", proposal.effort().schemes()).put("checks", proposal.effort().checks());
    LandingPlan plan = proposal.plan();
    if (plan == null) {
      root.putNull("plan");
    } else {
      plan(root.putObject("plan"), plan);
    }
    ArrayNode moves = root.putArray("moves");
    for (Proposal.Move m : proposal.moves()) {
      moves
          .addObject()
          .put("conductor", m.conductor())
          .put("side", side(m.side()))
          .put("from", m.from())
          .put("to", m.to());
    }
    ArrayNode spares = root.putArray("spares");
    for (Proposal.Spare s : proposal.spares()) {
      spares
          .addObject()
          .put("conductor", s.conductor())
          .put("for", s.farTerminal())
          .put("proof", s.proof());
    }
    notices(root, proposal);
    ArrayNode remarks = root.putArray("remarks");
    proposal.remarks().forEach(remarks::add);
    shortfall(root, proposal.shortfall());
    ArrayNode colours = root.putArray("colours");
    for (ColourConvention.Disagreement d : proposal.disagreements()) {
      colours
          .addObject()
          .put("conductor", d.conductor())
          .put("colour", d.colour())
          .put("side", side(d.side()))
          .put("terminal", d.terminal())
          .put("words", d.words());
    }
    return MAPPER.writeValueAsString(root) + "\n";
  }

  private static void plan(ObjectNode node, LandingPlan plan) {
    ArrayNode landed = node.putArray("landed");
    for (LandingPlan.Landed l : plan.landed()) {
      landed.addObject().put("conductor", l.conductor()).put("near", l.near()).put("far", l.far());
    }
    ArrayNode jumpers = node.putArray("jumpers");
    plan.jumpers().stream()
        .sorted(Comparator.comparing(Control.Jumper::a).thenComparing(Control.Jumper::b))
        .forEach(
            j ->
                jumpers
                    .addObject()
                    .put("side", side(j.side()))
                    .putArray("between")
                    .add(j.a())
                    .add(j.b()));
    ObjectNode settings = node.putObject("settings");
    plan.settings().keySet().stream()
        .sorted()
        .forEach(name -> settings.put(name, plan.settings().get(name)));
  }

  private static void notices(ObjectNode root, Proposal proposal) {
    ArrayNode notices = root.putArray("notices");
    for (Found f : proposal.notices()) {
      ObjectNode node = notices.addObject();
      node.put("kind", f.kind().name().toLowerCase(Locale.ROOT).replace('_', '-'))
          .put("title", f.kind().title())
          .put("words", f.words());
      ArrayNode states = node.putArray("states");
      f.states().forEach(states::add);
    }
  }

  private static void shortfall(ObjectNode root, Proposal.@Nullable Shortfall shortfall) {
    if (shortfall == null) {
      root.putNull("shortfall");
      return;
    }
    ObjectNode node = root.putObject("shortfall");
    node.put("words", shortfall.words());
    ArrayNode usable = node.putArray("usable");
    shortfall.usable().forEach(usable::add);
    ArrayNode needed = node.putArray("needed");
    shortfall.needed().forEach(n -> needed.addObject().put("near", n.near()).put("far", n.far()));
    ArrayNode alternatives = node.putArray("alternatives");
    shortfall.alternatives().forEach(alternatives::add);
  }

  private static String side(Point.Side side) {
    return side == Point.Side.NEAR ? "near" : "far";
  }
}
