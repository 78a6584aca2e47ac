package bellwire.analysis.landing;

import bellwire.analysis.findings.MistakeKind;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point.Side;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A conductor's end that is not where the plan has it. */
public sealed interface LandingMistake extends Mistake {

  /** Two conductors under one another's terminals at one end; one of the two may be a spare. */
  record Exchanged(
      Side side, String a, @Nullable String terminalA, String b, @Nullable String terminalB)
      implements LandingMistake {
    @Override
    public MistakeKind kind() {
      return MistakeKind.EXCHANGED;
    }

    @Override
    public Installation in(Installation installation) {
      String underA = terminal(installation, a, side);
      String underB = terminal(installation, b, side);
      return moved(moved(installation, a, side, underB), b, side, underA);
    }

    @Override
    public String words() {
      if (terminalA == null || terminalB == null) {
        String spare = terminalA == null ? a : b;
        String right = terminalA == null ? b : a;
        String terminal = terminalA == null ? terminalB : terminalA;
        return spare + " under " + terminal + " " + Mistake.at(side) + " in place of " + right;
      }
      return a
          + " and "
          + b
          + " exchanged "
          + Mistake.at(side)
          + ": "
          + a
          + " is under "
          + terminalB
          + ", "
          + b
          + " under "
          + terminalA;
    }
  }

  /** A conductor under another terminal, alone there or beside another conductor. */
  record Mislanded(Side side, String conductor, String planned, String terminal, boolean taken)
      implements LandingMistake {
    @Override
    public MistakeKind kind() {
      return taken ? MistakeKind.DOUBLY_LANDED : MistakeKind.MISLANDED;
    }

    @Override
    public Installation in(Installation installation) {
      return moved(installation, conductor, side, terminal);
    }

    @Override
    public String words() {
      return conductor
          + " under "
          + terminal
          + " instead of "
          + planned
          + " "
          + Mistake.at(side)
          + (taken ? ", where another conductor is too" : "");
    }
  }

  /** A conductor's end that is free though the plan has a terminal for it. */
  record NotLanded(Side side, String conductor, String terminal) implements LandingMistake {
    @Override
    public MistakeKind kind() {
      return MistakeKind.NOT_LANDED;
    }

    @Override
    public Installation in(Installation installation) {
      return moved(installation, conductor, side, null);
    }

    @Override
    public String words() {
      return conductor + " not gripped under " + terminal + " " + Mistake.at(side);
    }
  }

  /** The terminal a conductor is under; null where that end is free. */
  static @Nullable String terminal(Installation installation, String conductor, Side side) {
    for (Landed landed : installation.plan().landed()) {
      if (landed.conductor().equals(conductor)) {
        return side == Side.NEAR ? landed.near() : landed.far();
      }
    }
    return null;
  }

  private static Installation moved(
      Installation installation, String conductor, Side side, @Nullable String terminal) {
    LandingPlan plan = installation.plan();
    List<Landed> landed = new ArrayList<>();
    for (Landed l : plan.landed()) {
      if (!l.conductor().equals(conductor)) {
        landed.add(l);
      } else if (side == Side.NEAR) {
        landed.add(new Landed(conductor, terminal, l.far()));
      } else {
        landed.add(new Landed(conductor, l.near(), terminal));
      }
    }
    return installation.withPlan(new LandingPlan(landed, plan.jumpers(), plan.settings()));
  }
}
