package bellwire.analysis.findings;

/**
 * What goes wrong when a control is landed, and what stops by itself afterwards. How often each is
 * met is common practice, no source: the chance that one given conductor, pair, terminal or part of
 * an installation has it.
 */
public enum MistakeKind implements FindingKind {
  EXCHANGED(
      "two conductors exchanged",
      0.0007,
      "Power off, proved dead: exchange the two conductors under their terminals at that end, tug both, check the plan"
          + " once more."),
  MISLANDED(
      "a conductor under the wrong terminal",
      0.0005,
      "Power off, proved dead: move it to the terminal that the plan names, and tug it."),
  DOUBLY_LANDED(
      "two conductors under one terminal",
      0.0003,
      "Power off, proved dead: move it to the terminal that the plan names; one conductor to a clamp unless the plan"
          + " says two."),
  NOT_LANDED(
      "a conductor not landed",
      0.003,
      "Power off, proved dead: strip it to the clamp's length, seat it under its terminal, tug it. Insulation under the"
          + " clamp looks landed and is not."),
  TOUCHING_NEIGHBOUR(
      "neighbours touching at their terminals",
      0.001,
      "Power off, proved dead: cut both back to sound insulation, strip to the clamp's length, no strand outside it."),
  TOUCHING_FREE_END(
      "a free end touching",
      0.0005,
      "Power off, proved dead: cut the free end back to sound insulation, cap it, fold it away."),
  TOUCHING_ON_THE_WAY(
      "two conductors touching on the way",
      0.0003,
      "Power off, proved dead: a survey says how far along. Look for a staple, a nail or a splice there; else use"
          + " spares or pull a new cable."),
  TOUCHING_METAL(
      "bare copper on metal at the equipment",
      0.0007,
      "Power off, proved dead: cut it back to sound insulation, keep it clear of the cabinet and of its entry's edge."),
  TOUCHING_METAL_ON_THE_WAY(
      "a conductor on metal on the way",
      0.0003,
      "Power off, proved dead: a survey says how far along. Look for a staple, a clamp or an edge; else use a spare or"
          + " pull a new cable."),
  BROKEN(
      "a conductor broken",
      0.001,
      "A survey says how far along. Use a spare under the same terminals at both ends, or pull a new cable."),
  POOR_JOINT(
      "a poor joint in a conductor",
      0.0007,
      "Re-cut and re-strip both ends, seat and tug them; what remains is a splice or corrosion on the way: a survey"
          + " shows its resistance."),
  JUMPER_MISSING(
      "the jumper is missing",
      0.01,
      "Power off, proved dead: fit the jumper, or set the slide, between the two supply terminals: one transformer feeds"
          + " both."),
  JUMPER_TOO_MANY(
      "a jumper too many",
      0.007,
      "Power off, proved dead: take the jumper off, or set the slide apart: each transformer feeds its own terminal."),
  WRONG_SETTING(
      "a wrong setting", 0.01, "Change the setting in the control, then try each call once."),
  FUSE_OPENED(
      "a fuse has opened",
      0.01,
      "Power off. Find what opened it: look for touching copper and for a call that shorts the supply. Only then fit a"
          + " fuse of the same type and rating."),
  FLOAT_OPEN(
      "the float switch is open",
      0.007,
      "Empty the drain pan and clear the drain; never bridge it."),
  LIMIT_OPEN(
      "a limit switch is open",
      0.002,
      "It protects the equipment: find why it opened (air, filter, pump, burner); never bridge it."),
  PRESSURE_OPEN(
      "a pressure switch is open",
      0.003,
      "It protects the equipment: find why it opened, by those licensed for it; never bridge it."),
  DOOR_OPEN("the door switch is open", 0.01, "Close the door; never bridge its switch."),
  SUPPLY_OFF(
      "a transformer gives nothing",
      0.007,
      "Look at the disconnect, the breaker, the door and the transformer's own breaker. A transformer that burnt out"
          + " had a cause: find it, then fit one of the same type and rating."),
  SUPPLY_REVERSED(
      "a transformer's leads exchanged",
      0.003,
      "Power off, proved dead: exchange its two secondary leads, then prove it by the volts between both hots."),
  WIRE_OPEN(
      "copper open within the equipment",
      0.001,
      "Power off, proved dead: look at both ends of it and at splices on its way; mend it."),
  COIL_SHORTED(
      "a coil or its wires shorted",
      0.001,
      "Power off, proved dead: look along its two wires, outdoors above all, for copper that is rubbed bare; then measure"
          + " the coil with a lead lifted. Mend or replace what is shorted, then fit a fuse of the same type and rating."),
  COIL_OPEN(
      "a coil is open",
      0.001,
      "Power off, proved dead: measure the coil's resistance with one lead lifted; fit one of the same volts and duty.");

  private final String title;
  private final double prior;
  private final String remedy;

  MistakeKind(String title, double prior, String remedy) {
    this.title = title;
    this.prior = prior;
    this.remedy = remedy;
  }

  /** Chance that one given conductor, pair, terminal or part has it (CP). */
  public double prior() {
    return prior;
  }

  @Override
  public String title() {
    return title;
  }

  @Override
  public String remedy() {
    return remedy;
  }
}
