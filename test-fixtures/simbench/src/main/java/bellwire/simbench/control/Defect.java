package bellwire.simbench.control;

/** What may be wrong with a control or with how it was set up. */
public enum Defect {
  /**
   * Set for other equipment: a conventional kind heats with Y1 as a heat pump would, a heat pump
   * with W1 and without its valve as a furnace would.
   */
  WRONG_EQUIPMENT,
  /** The valve is energised in the wrong mode. */
  VALVE_REVERSED,
  /** A terminal stays closed for good after its first call. */
  WELDED_CONTACT,
  /** The compressor restarts without rest. */
  NO_REST,
  /** The rest is kept but for power losses: the compressor restarts within a minute of one. */
  SHORT_REST_AFTER_POWER_LOSS,
  /** G doesn't come with a call, though the fan's own setting closes it. */
  FAN_NOT_CALLED,
  /** W1 in cooling; with dual fuel, W1 while the compressor still runs. */
  CALLS_MEET,
  /** The second stage or the auxiliary heat never comes; with one stage, heat never comes. */
  STAGE_MISSING,
  /** A terminal opens 5 to 30 s late; G, minutes. */
  LATE_DROP_OUT,
  /** A contact opens and closes several times a second for a while during each call. */
  CHATTER;

  /** Whether a control of a kind can have it. */
  public boolean canShow(Kind kind) {
    return switch (this) {
      case WRONG_EQUIPMENT -> kind != Kind.BOILER_DRY;
      case VALVE_REVERSED -> kind.heatPump();
      case NO_REST, SHORT_REST_AFTER_POWER_LOSS, FAN_NOT_CALLED, CALLS_MEET -> kind.cools();
      case WELDED_CONTACT, STAGE_MISSING, LATE_DROP_OUT, CHATTER -> true;
    };
  }
}
