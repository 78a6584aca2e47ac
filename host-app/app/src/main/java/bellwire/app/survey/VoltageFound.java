package bellwire.app.survey;

import bellwire.analysis.survey.Foreign;

/** A look with every relay open found a voltage: nothing may be connected. */
final class VoltageFound extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient Foreign foreign;

  VoltageFound(Foreign foreign) {
    super(foreign.words());
    this.foreign = foreign;
  }

  Foreign foreign() {
    return foreign;
  }
}
