package bellwire.app.rehearsal;

/** What a terminal is for; the words are for people. */
public enum Role {
  HEAT("heat"),
  SECOND_HEAT("second heat stage"),
  AUXILIARY_HEAT("auxiliary heat"),
  COMPRESSOR("compressor"),
  SECOND_COMPRESSOR("second compressor stage"),
  FAN("fan"),
  VALVE("reversing valve"),
  HUMIDIFY("humidifier"),
  DEHUMIDIFY("dehumidifier"),
  VENTILATE("ventilation"),
  ACCESSORY("accessory"),
  OTHER("output");

  private final String words;

  Role(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
