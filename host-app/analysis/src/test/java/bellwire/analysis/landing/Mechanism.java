package bellwire.analysis.landing;

/** How a mistake does what it does, in the order of the table. */
enum Mechanism {
  SHORT_ON_CALL("Supply shorted: through a terminal that closes to supply on the call"),
  SHORT_BY_MODE("Supply shorted: as soon as the mode is set"),
  SHORT_AT_ONCE("Supply shorted: supply and common touching"),
  SHORT_TO_METAL("Supply against cabinet metal"),
  SUPPLIES_AT_ONE_POINT("Supplies joined at one point: nothing circulates"),
  SUPPLIES_AT_BOTH_ENDS("Supplies joined at both ends"),
  OTHER_COMMON("Fed from one supply, returned to the other"),
  NO_PATH_COPPER("Path missing: jumper, conductor"),
  NO_PATH_OPENED("Path missing: opened fuse, opened switch"),
  NO_PATH_DROP("Path too long"),
  WRONG_LOAD_LANDED("Call reaching the wrong load: conductors exchanged or one terminal off"),
  WRONG_LOAD_TOUCHING("Call reaching the wrong load: neighbours touching"),
  WRONG_LOAD_SET("Call reaching the wrong load: setting, sense of the reversing valve"),
  NEVER_RELEASED("Path never released");

  final String title;

  Mechanism(String title) {
    this.title = title;
  }
}
