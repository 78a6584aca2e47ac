package bellwire.analysis.findings;

/**
 * What a landing plan does wrong, worst first. That class 2 supplies are joined only where listed
 * for it is the National Electrical Code's, 725.121(B) of 2020, from memory.
 */
public enum LoopFinding implements FindingKind {
  SHORT_WITHOUT_FUSE(
      "the supply is shorted, and no fuse is in the way",
      "Leave the power off. Find what joins supply and common along the path given, and clear it; then have a fuse of"
          + " the transformer's rating fitted in its supply."),
  SHORT_MAY_LAST(
      "the supply is shorted, and the fuse may not open in time",
      "Leave the power off: the transformer overheats while the fuse holds. Find what joins supply and common along the"
          + " path given, and clear it. A fuse of the same type and rating stays; a smaller current through it is no"
          + " reason for another."),
  SUPPLY_SHORTED(
      "the supply is shorted",
      "Leave the power off. Find what joins supply and common along the path given, and clear it; only then fit a fuse"
          + " of the same type and rating."),
  SUPPLIES_OPPOSED(
      "two supplies joined, and they oppose",
      "Leave the power off. Take the jumper off or part the two supplies where the path says. Class 2 supplies may be"
          + " joined only where they are listed for it: then exchange one transformer's secondary leads first, and prove"
          + " it by the volts between both hots."
          + " Where a fuse has opened: find the cause first, then fit the same type and rating."),
  SUPPLIES_OTHER_PHASE(
      "two supplies joined from different phases",
      "Leave the power off. Take the jumper off or part the two supplies where the path says: two phases can't be joined"
          + " whichever way the leads are. Where a fuse has opened: find the cause first, then fit the same type and"
          + " rating."),
  SUPPLIES_IN_PHASE(
      "two supplies joined, in phase",
      "Take the jumper off where both transformers are to stay: class 2 supplies may be joined only where they are"
          + " listed for it. They share the load as long as both stay in phase; one"
          + " lead exchanged later opposes them, and with one switched off its primary is live from the other."),
  SUPPLIES_MEET(
      "two supplies meet at one point",
      "Nothing circulates while there is no second joint between them. Take the jumper off where both transformers are"
          + " to stay: a second joint (commons tied, both bonded to metal) lets a current circulate."),
  OVERVOLTAGE(
      "more volts than a load stands",
      "Leave the power off. Where two supplies are joined, part them where the path says; where there is only one, its"
          + " transformer gives more than this circuit is made for: measure its volts without load, read its plate."),
  TOUCH_CARRIES(
      "a touch between conductors carries a current",
      "Leave the power off: it heats where they touch. A survey says how far along. Look for a staple, a nail, a splice"
          + " or damp there; else use spares or pull a new cable."),
  HEAT_AND_COOL(
      "heats and cools at once",
      "Look at the conductors along the path: two calls reach the equipment together. Part them and land them anew."),
  EMERGENCY_WITH_COMPRESSOR(
      "the compressor runs in emergency heat",
      "Emergency heat is for when the outdoor unit must not run. Look at what its call reaches along the path, and at"
          + " the control's setting."),
  WRONG_DIRECTION(
      "the heat pump runs in the wrong direction",
      "Look at which of O and B the reversing valve is on, and set the control to it; then look at the conductor along"
          + " the path."),
  WRONG_LOAD(
      "a call runs the wrong load",
      "Two conductors are exchanged, one is under its neighbour's terminal, or the control is set for other equipment."
          + " Follow the path given, at both ends of each conductor, then look at the settings."),
  RUNS_UNCALLED(
      "runs though nothing calls for it",
      "Follow the path given: conductors exchanged, a touch, a jumper or a setting feeds it. Look there first."),
  HELD(
      "does not drop out",
      "What still reaches it when the call ends is too little to pull it in and enough to hold it. Follow the path"
          + " given: a leaking control needs its own common, a touch must be cleared."),
  FUSE_OPENS(
      "a fuse opens under load",
      "More runs through it than it carries. Find the load that should not be on it; only then fit a fuse of the same"
          + " type and rating, never a larger one."),
  TRANSFORMER_OVERLOADED(
      "a transformer is overloaded",
      "It overheats, and the fuse does not protect it at this current. Take the load off that does not belong on it, or"
          + " have a transformer fitted for all of it."),
  CONTROL_BLANK(
      "the control is blank",
      "Without its supply it calls for nothing. Look at the supply's and the common's conductor at both ends, at the"
          + " fuse and at the switches in the supply. Where a fuse has opened: find the cause first, then fit the same"
          + " type and rating."),
  CONTROL_RESTARTS(
      "the control goes blank as soon as it calls, and comes back",
      "What it calls takes its own supply. Look for a poor joint or too thin a conductor in the supply and the common,"
          + " and for a load too heavy along the call."),
  CONTROL_DOUBTFUL(
      "the control may go blank",
      "It gets hardly enough to live on. Give it a common of its own, or shorten what else draws through its"
          + " conductors."),
  COMMON_OF_OTHER_SUPPLY(
      "fed from one supply, returned to the other",
      "No current flows. Land the control's C on the common of the transformer that feeds its R; a call's supply must"
          + " come from the transformer whose common its load is on."),
  NOTHING_RUNS(
      "no call runs anything",
      "Look at what all calls have in common: the supply's conductor at both ends, the jumper between the supplies, the"
          + " fuse, the switches in the supply. Where a fuse has opened: find the cause first, then fit the same type"
          + " and rating."),
  NEVER_RUNS(
      "never runs",
      "No call reaches it. Look along the path it should have: conductor, jumper, fuse, switch, and the control's"
          + " setting. Where a fuse has opened: find the cause first, then fit the same type and rating."),
  DOES_NOT_RUN(
      "does not run on a call that wants it",
      "The call does not reach it. Look along the path it should have: the conductor's two ends, and the control's"
          + " setting."),
  CHATTERS(
      "pulls in and drops out by turns",
      "Leave the power off: contacts burn. Its own pulling in takes away its supply: follow the path given."),
  DOES_NOT_PULL_IN(
      "gets too little to pull in",
      "It hums, draws its inrush current and overheats. Look for a poor joint in the conductors named; shorten the run,"
          + " use a larger gauge or two conductors in parallel, or have an isolating relay fitted at the equipment."),
  MAY_NOT_PULL_IN(
      "may not pull in",
      "It hums, draws its inrush current and overheats. Shorten the run, use a larger gauge or two conductors in"
          + " parallel, or have an isolating relay fitted at the equipment."),
  MAY_RUN_UNCALLED(
      "may run though nothing calls for it",
      "What reaches it lies between what holds it in and what pulls it in. Follow the path given; a leaking control"
          + " needs its own common, or an isolating relay."),
  STOLEN_POWER(
      "power stolen through an input holds it",
      "Give the control a common of its own, or a load across the input as its maker allows."),
  SWITCH_WITHOUT_EFFECT(
      "a protective switch stops nothing",
      "Something by-passes it: a jumper, a touch or a conductor on the wrong side of it. Until that is found the"
          + " equipment runs unprotected: leave it off."),
  TOUCHES_METAL(
      "live copper on bare metal",
      "Nothing flows today, as nothing else of this supply is on metal. The next touch shorts it: cut the copper back"
          + " and clear it now."),
  METAL_SUPPLIES_MEET(
      "two supplies meet over bare metal",
      "Both commons are on the cabinet. That is common, and harmless as long as nothing else joins them; keep the hots"
          + " apart."),
  ON_NOTHING(
      "a conductor landed on nothing",
      "It is under a terminal at one end only. Land the other end, or lift this one and fold both back, insulated."),
  CALLS_IN_SILENCE(
      "the call goes on in silence",
      "When that switch opens the load stops and the control, fed from elsewhere, calls on and shows nothing. Say so to"
          + " the customer, or use a switch with an alarm contact."),
  BLANK_ON_SWITCH(
      "the control goes blank when a switch opens",
      "That is how it is wired: a blank control then means an open switch. Note it where the next one looks.");

  private final String title;
  private final String remedy;

  LoopFinding(String title, String remedy) {
    this.title = title;
    this.remedy = remedy;
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
