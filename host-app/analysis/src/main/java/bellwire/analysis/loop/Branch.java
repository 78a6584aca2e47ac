package bellwire.analysis.loop;

import org.hipparchus.complex.Complex;

/**
 * A piece of the loop between two nodes of its circuit.
 *
 * @param name as a path of a current names it
 * @param number of a load among the loads, of a contact's load among them, of a control's contact
 *     among its contacts, of one of the control's ways of getting power among them; else 0
 * @param openVolts of a transformer; else 0
 * @param ohms closed; of a load, dropped out; of the control, all its ways together
 * @param otherwise of a load, pulled in; of a control's contact, open; else as ohms. Infinite where
 *     nothing conducts
 */
record Branch(
    Kind kind,
    String name,
    int a,
    int b,
    int number,
    Complex openVolts,
    Complex ohms,
    Complex otherwise) {
  /** What it is made of. */
  enum Kind {
    TRANSFORMER,
    FUSE,
    LOAD,
    SWITCH,
    /** Closed while its load is pulled in. */
    NORMALLY_OPEN,
    /** Closed while its load is dropped out. */
    NORMALLY_CLOSED,
    WIRE,
    CONDUCTOR,
    TOUCH,
    JUMPER,
    CONTROL_CONTACT,
    /** The control as a load. */
    CONTROL;

    /** Whether it is to be no load. */
    boolean copper() {
      return this != TRANSFORMER && this != LOAD && this != CONTROL;
    }
  }

  static final Complex NOTHING = new Complex(Double.POSITIVE_INFINITY);

  /** What does not change. */
  Branch(Kind kind, String name, int a, int b, Complex ohms) {
    this(kind, name, a, b, 0, Complex.ZERO, ohms, ohms);
  }

  static Branch source(String name, int a, int b, Complex openVolts, Complex ohms) {
    return new Branch(Kind.TRANSFORMER, name, a, b, 0, openVolts, ohms, ohms);
  }
}
