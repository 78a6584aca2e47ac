package bellwire.link;

/**
 * Conversion rates of the converter's low-latency filter, in the order of its data-rate code. Those
 * that the board uses: 20 per second rejects 50 and 60 Hz together, 50 and 60 one of them.
 */
public enum Rate {
  SPS_2_5(2.5),
  SPS_5(5),
  SPS_10(10),
  SPS_16_6(16.6),
  SPS_20(20),
  SPS_50(50),
  SPS_60(60),
  SPS_100(100),
  SPS_200(200),
  SPS_400(400),
  SPS_800(800),
  SPS_1000(1000),
  SPS_2000(2000),
  SPS_4000(4000);

  private final double perSecond;

  Rate(double perSecond) {
    this.perSecond = perSecond;
  }

  public double perSecond() {
    return perSecond;
  }
}
