package bellwire.app.report;

import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.TieRound;
import bellwire.analysis.survey.TieRun;
import bellwire.analysis.ties.Tie;
import bellwire.analysis.ties.TiePlan;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;

/** Ties in JSON: a plan, and the rounds of a survey. docs/survey-json.md describes the fields. */
public final class TiesJson {
  private TiesJson() {}

  /** Number of conductors and the rounds, each a list of pairs; "M" is bare metal. */
  public static void plan(ObjectNode node, TiePlan plan) {
    node.put("conductors", plan.conductors());
    ArrayNode rounds = node.putArray("rounds");
    for (List<Tie> round : plan.rounds()) {
      ArrayNode pairs = rounds.addArray();
      for (Tie tie : round) {
        ArrayNode pair = pairs.addArray().add(tie.a());
        if (tie.b() == Tie.METAL) {
          pair.add("M");
        } else {
          pair.add(tie.b());
        }
      }
    }
    ArrayNode untied = node.putArray("untied");
    plan.untied().forEach(untied::add);
  }

  static void put(ObjectNode node, TieRun run) {
    plan(node.putObject("plan"), run.plan());
    node.put(
        "explanation",
        run.reading().explanation().name().toLowerCase(Locale.ROOT).replace('_', '-'));
    ArrayNode broken = node.putArray("broken");
    run.reading().broken().forEach(broken::add);
    ArrayNode rounds = node.putArray("rounds");
    for (TieRound round : run.rounds()) {
      ObjectNode each = rounds.addObject();
      ArrayNode joined = each.putArray("joined");
      for (List<Integer> group : round.joined()) {
        ArrayNode ports = joined.addArray();
        group.forEach(p -> ports.add(Ports.name(p)));
      }
      ArrayNode loops = each.putArray("loops");
      for (TieRound.Loop loop : round.loops()) {
        ObjectNode one = loops.addObject();
        one.putArray("between").add(Ports.name(loop.a())).add(Ports.name(loop.b()));
        ResultJson.put(one, "resistance", loop.ohms());
      }
    }
  }

  static void farPossible(ObjectNode node, TieRun run, int port) {
    ArrayNode possible = node.putArray("far-possible");
    run.reading().possible().getOrDefault(port, new TreeSet<>()).forEach(possible::add);
  }
}
