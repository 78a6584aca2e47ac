package bellwire.app.export;

import bellwire.app.export.JobTables.Rows;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;

/** Who is where, before and after, and what each call does. */
final class LandingTables {
  private LandingTables() {}

  static List<Rows> of(ObjectNode root) {
    Walk plans = Walk.of(root).each("landing", "landings").each("plan", "landing/plans");
    Walk states = plans.each("state", "plan/states");
    return List.of(
        plans
            .each("landed", "plan/landed")
            .rows(
                "landings",
                """
                landing    landing/landing
                plan       plan/plan
                conductor  landed/conductor
                near       landed/near
                far        landed/far
                ohm        landed/ohm
                """),
        plans
            .each("jumper", "plan/jumpers")
            .rows(
                "landing-jumpers",
                """
                landing  landing/landing
                plan     plan/plan
                side     jumper/side
                a        jumper/between/0
                b        jumper/between/1
                """),
        states
            .each("load", "state/loads")
            .rows(
                "landing-calls",
                """
                landing      landing/landing
                plan         plan/plan
                state        state/state
                control_lit  state/control-lit
                load         load/load
                energised    load/energised
                held         load/held
                volt         load/volt
                ampere       load/ampere
                """),
        states
            .each("fuse", "state/fuses")
            .rows(
                "landing-fuses",
                """
                landing             landing/landing
                plan                plan/plan
                state               state/state
                fuse                fuse/fuse
                rated_ampere        fuse/rated-ampere
                ampere              fuse/ampere
                opens_not_before_s  fuse/opens-not-before-s
                opens_before_s      fuse/opens-before-s
                """));
  }
}
