package bellwire.analysis.attached;

/** What joins two ports. */
public enum LoadKind {
  COIL("a coil (relay, contactor or valve)"),
  SECONDARY("a transformer's secondary"),
  CAPACITOR("a capacitor"),
  DIODE("a diode"),
  RESISTANCE("copper or a plain resistance"),
  UNKNOWN("something that is none of coil, secondary, capacitor, diode and plain resistance");

  private final String words;

  LoadKind(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
