package bellwire.analysis.findings;

/** What a survey finds on a cable. */
public enum CableFinding implements FindingKind {
  TOUCHING(
      "conductors touching",
      "Look at both ends first: cut back to sound insulation, strip to the clamp's length, land again. If they touch"
          + " inside the wall, use spare conductors or pull a new cable."),
  TOUCHING_AT_THE_NEAR_END(
      "conductors touching at the near end",
      "Look at the clamps here: copper stripped too far, a stray strand, a nick where the jacket was slit. Cut back to"
          + " sound insulation, strip to the clamp's length, land again, measure again."),
  TOUCHING_AT_THE_FAR_END(
      "conductors touching at the far end",
      "Look at the wall, at the clamps and behind the wall plate: copper stripped too far, a stray strand, a nick where"
          + " the jacket was slit. Cut back to sound insulation, strip to the clamp's length. A short so close to the"
          + " plug looks much like the plug."),
  TOUCHING_ON_THE_WAY(
      "conductors touching on the way",
      "A staple, a nail or screw, a splice or a sharp edge at that distance. Where it can't be reached, use spare"
          + " conductors for both or pull a new cable; leave neither of the two in use."),
  BROKEN_BESIDE(
      "broken and touching another",
      "A nail, a screw or a saw does both at once: look at the distance given for the touch. Use spare conductors or"
          + " pull a new cable."),
  UNEXPLAINED(
      "readings that no fault explains",
      "Measure again with fingers off and every clamp tugged. What stays is more than two faults on one group of"
          + " conductors, or something still attached: lift everything at both ends, clear what is listed, measure"
          + " again."),
  ATTACHED_COIL(
      "a coil is still attached",
      "One of the two is still under a coil's terminal at the equipment, or a relay hangs on the far end. Lift all"
          + " conductors of this cable from the equipment's terminals and from the control's, then measure again."),
  ATTACHED_SECONDARY(
      "a transformer's secondary is still attached",
      "Its primary must be dead: prove it again. Lift both conductors from the transformer's terminals, then measure"
          + " again."),
  ATTACHED_CAPACITOR(
      "a capacitor is still attached",
      "The control, or a board at the equipment, is still on the cable: lift the conductors from the control's"
          + " terminals, and at the equipment, then measure again."),
  ATTACHED_DIODE(
      "a diode is still attached",
      "The control, a zone panel or an isolating relay is still on the cable: lift the conductors from the control's"
          + " terminals, then measure again."),
  ATTACHED_CABLE(
      "a second cable under the same clamps",
      "Another cable's conductors are under the same terminals: lift them, so that only this cable is under the clamps,"
          + " then measure again."),
  ATTACHED_UNKNOWN(
      "something attached that is not recognised",
      "What joins them behaves like none of the things looked for. Lift the conductors from the control's terminals and"
          + " from the equipment's, then measure again."),
  OPEN(
      "no path to the far end",
      "Push the plug fully on and tug the conductor at its clamp, then measure again. If it stays open, the conductor"
          + " is broken: use a spare or pull a new cable."),
  UNTIED(
      "not seen in its ties",
      "At the far end: is the number right, the copper bare, the clip gripping? Make that round again. If it stays so,"
          + " the conductor is broken, or has a joint of more than 80 ohm: use a spare or pull a new cable."),
  MISTIED(
      "the ties do not fit the plan",
      "Check every clip against the plan: the right two numbers, bare copper gripped, nothing else touching. Then make"
          + " both rounds again."),
  JOINT(
      "resistance stands out",
      "Re-cut and re-strip both ends, seat the conductor under its clamp and tug it, then measure again. What remains"
          + " is a splice, a nick or corrosion on the way. A few milliamperes cannot show how a joint behaves under a"
          + " contactor's inrush."),
  CONTACT(
      "a contact was loose",
      "It went away when the plug or clamp was seated afresh: strip and clamp this conductor with care and tug it."),
  LEAKAGE(
      "leakage",
      "Look for a staple, a nick or damp along the run. A low-voltage reading is no insulation-resistance test."),
  DAMP(
      "slight leakage",
      "Dirt or damp on the ends does this: wipe and dry them, keep fingers off, measure again."),
  UNIDENTIFIED(
      "not identified",
      "Take fingers off, push the plug fully on and measure again, with both plugs."),
  AMBIGUOUS(
      "which is which stays open",
      "Clear the fault first where there is one, then make both rounds again. Or join one of them to bare metal at the"
          + " far end with M clipped, and measure again: the one that now touches M is that one."),
  UNPROVED(
      "not shown to reach the far end",
      "Its number follows by elimination. To see that it reaches the far end, use the plan that ties every conductor"
          + " (--ties=all), or join it to any other and measure again."),
  HIDDEN("not identified", "Clear the fault that hides it, then measure again."),
  NOTHING_LANDED(
      "nothing landed",
      "Land the conductors on P1 to P16. One broken within half a metre of the board looks like an empty port: name"
          + " the ports in use with --ports."),
  ALONE("a conductor alone", "Land the others too; a survey compares conductors with one another."),
  METAL_UNCHECKED(
      "not checked to ground",
      "Clip M to bare metal of the cabinet or to the cable's drain, and measure again."),
  TWO_CONDUCTORS(
      "two conductors: only their sum can be read",
      "To tell which is which, join one of them to bare metal at the far end with M clipped, and measure again:"
          + " 'bellwire ties 2' says how.");

  private final String title;
  private final String remedy;

  CableFinding(String title, String remedy) {
    this.title = title;
    this.remedy = remedy;
  }

  /** Whether it is copper on copper, wherever. */
  public boolean touching() {
    return switch (this) {
      case TOUCHING, TOUCHING_AT_THE_NEAR_END, TOUCHING_AT_THE_FAR_END, TOUCHING_ON_THE_WAY -> true;
      default -> false;
    };
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
