package bellwire.app.desk.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Point;
import bellwire.app.drawing.StripsModel;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** From the names of a current's path, theory (78), to the keys of the strips' drawing. */
final class PathKeys {
  private final LandingDraft draft;
  private final Which which;

  PathKeys(LandingDraft draft, Which which) {
    this.draft = draft;
    this.which = which;
  }

  /**
   * @param names of conductors, terminals, jumpers and of what the strips do not show, which is
   *     passed over
   */
  Set<String> of(List<String> names) {
    Set<String> keys = new HashSet<>();
    for (String terminal : draft.terminals(which, Point.Side.NEAR)) {
      if (names.contains(Point.near(terminal).words())) {
        keys.add(StripsModel.clampKey(StripsModel.Side.NEAR, terminal));
      }
    }
    for (String terminal : draft.terminals(which, Point.Side.FAR)) {
      if (names.contains(Point.far(terminal).words())) {
        keys.add(StripsModel.clampKey(StripsModel.Side.FAR, terminal));
      }
    }
    for (var conductor : draft.landing().cable().conductors()) {
      if (names.contains(conductor.name())) {
        keys.add(StripsModel.strandKey(conductor.name()));
      }
    }
    for (Control.Jumper j : draft.plan(which).jumpers()) {
      StripsModel.Side side = StripsOf.side(j.side());
      if (names.contains("jumper " + j.a() + "-" + j.b())
          && keys.contains(StripsModel.clampKey(side, j.a()))
          && keys.contains(StripsModel.clampKey(side, j.b()))) {
        keys.add(StripsModel.jumperKey(new StripsModel.Jumper(side, j.a(), j.b())));
      }
    }
    return Set.copyOf(keys);
  }
}
