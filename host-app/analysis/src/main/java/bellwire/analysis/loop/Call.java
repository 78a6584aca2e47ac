package bellwire.analysis.loop;

/** What a control asks for. */
public enum Call {
  NONE("nothing called"),
  FAN("fan on"),
  COOL_1("cooling"),
  COOL_2("second stage of cooling"),
  HEAT_1("heat"),
  HEAT_2("second stage of heat"),
  HEAT_3("third stage of heat"),
  EMERGENCY_1("emergency heat"),
  EMERGENCY_2("second stage of emergency heat");

  private final String words;

  Call(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }

  public boolean heats() {
    return compareTo(HEAT_1) >= 0;
  }

  public boolean cools() {
    return this == COOL_1 || this == COOL_2;
  }

  /** The stage below, NONE below the first. */
  public Call below() {
    return switch (this) {
      case NONE, FAN, COOL_1, HEAT_1 -> NONE;
      case COOL_2 -> COOL_1;
      case HEAT_2 -> HEAT_1;
      case HEAT_3 -> HEAT_2;
      case EMERGENCY_1 -> HEAT_3;
      case EMERGENCY_2 -> EMERGENCY_1;
    };
  }
}
