package bellwire.app.visit;

import bellwire.app.rehearsal.Hands;
import bellwire.app.rehearsal.Operator;
import bellwire.app.rehearsal.Step;
import bellwire.app.survey.InstrumentTrouble;
import org.jspecify.annotations.Nullable;

/** An operator whose steps are done by the hands of a simulation, where there are any. */
final class WithHands implements Operator {
  private final Operator operator;
  private final @Nullable Hands hands;

  WithHands(Operator operator, @Nullable Hands hands) {
    this.operator = operator;
    this.hands = hands;
  }

  @Override
  public Answer begin(Step step, int number, int of, Idle idle) throws InstrumentTrouble {
    Hands by = hands;
    if (by == null) {
      return operator.begin(step, number, of, idle);
    }
    operator.told(step, number, of);
    idle.pass(); // nobody acts in the instant of the question
    by.perform(step.deed());
    return new Answer(Choice.DO, "");
  }

  @Override
  public Next look(Moment moment) {
    Next next = operator.look(moment);
    boolean over = hands != null && next == Next.WAIT && (moment.reached() || moment.late());
    return over ? Next.GO_ON : next;
  }

  @Override
  public String observe(Step step, Idle idle) throws InstrumentTrouble {
    return hands == null ? operator.observe(step, idle) : "";
  }
}
