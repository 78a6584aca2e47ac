package bellwire.app.export;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point.Side;
import bellwire.app.document.ReportContents.Checked;
import bellwire.app.document.ReportContents.Landing;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.app.report.LandingCheckJson;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;

/** A job's landings, before and after, and what each call does under them: docs/job-json.md. */
final class LandingsJson {
  private LandingsJson() {}

  static void put(ArrayNode all, List<Landing> landings) {
    for (Landing landing : landings) {
      ObjectNode one = all.addObject().put("landing", landing.row().id());
      if (landing.row().cable() != 0) {
        one.put("cable", landing.row().cable());
      }
      JobJson.at(one, landing.row().atUnixMicros());
      landing.draft().ifPresent(draft -> one.put("title", draft.landing().title()));
      one.put("file", landing.row().text());
      JobJson.trouble(one, landing.trouble());
      landing
          .draft()
          .ifPresent(
              draft -> {
                ArrayNode plans = one.putArray("plans");
                plan(plans, draft, Which.AS_FOUND, landing.found());
                plan(plans, draft, Which.AS_PLANNED, landing.planned());
              });
    }
  }

  /** One with nothing landed is none. */
  private static void plan(
      ArrayNode plans, LandingDraft draft, Which which, Optional<Checked> checked) {
    LandingPlan plan = draft.plan(which);
    if (!draft.anyLanded(which)) {
      return;
    }
    ObjectNode one = plans.addObject().put("plan", JobJson.word(which));
    Control control = draft.control(which);
    one.put("equipment", draft.landing().equipment().title())
        .put("control", control == null ? "" : control.title());
    ArrayNode landed = one.putArray("landed");
    for (Landed each : plan.landed()) {
      ObjectNode conductor =
          landed
              .addObject()
              .put("conductor", each.conductor())
              .put("near", each.near())
              .put("far", each.far());
      double ohms = draft.landing().cable().conductor(each.conductor()).ohms();
      JobJson.number(conductor, "ohm", Double.isInfinite(ohms) ? Double.NaN : ohms);
    }
    ArrayNode jumpers = one.putArray("jumpers");
    plan.jumpers().stream()
        .sorted(Comparator.comparing(Object::toString))
        .forEach(
            j ->
                jumpers
                    .addObject()
                    .put("side", j.side() == Side.NEAR ? "near" : "far")
                    .putArray("between")
                    .add(j.a())
                    .add(j.b()));
    new TreeMap<>(plan.settings()).forEach(one.putObject("settings")::put);
    one.put("checked", checked.isPresent());
    checked.ifPresent(found -> check(one, found));
  }

  private static void check(ObjectNode one, Checked checked) {
    ObjectNode check =
        LandingCheckJson.of(
            "", false, checked.installation(), checked.states(), checked.found(), List.of());
    for (String field : List.of("states", "findings", "free-of-findings")) {
      one.set(field, check.path(field));
    }
  }
}
