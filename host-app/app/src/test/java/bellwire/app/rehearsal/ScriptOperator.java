package bellwire.app.rehearsal;

import bellwire.app.survey.InstrumentTrouble;

/** Does every step as soon as a hand can and goes on as soon as it is over. */
final class ScriptOperator implements Operator {
  private final Hands hands;

  ScriptOperator(Hands hands) {
    this.hands = hands;
  }

  @Override
  public Answer begin(Step step, int number, int of, Idle idle) throws InstrumentTrouble {
    idle.pass(); // nobody acts in the moment of the question
    hands.perform(step.deed());
    return new Answer(Choice.DO, "");
  }

  @Override
  public Next look(Moment moment) {
    return moment.reached() || moment.late() ? Next.GO_ON : Next.WAIT;
  }

  @Override
  public String observe(Step step, Idle idle) {
    return "";
  }
}
