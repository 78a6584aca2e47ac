package bellwire.app.desk.vigil;

import bellwire.app.report.PortList;
import bellwire.app.report.Span;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilPrompts;
import bellwire.app.vigil.VigilSite;
import bellwire.link.Message.KeepVigil;
import bellwire.link.Message.KeepVigil.Kind;
import java.time.ZonedDateTime;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * What a person has filled in for a vigil, as typed.
 *
 * @param ports such as 'P1=red,P2=white'; not for calls
 * @param leads such as 'W,Y,G'; for calls
 * @param returned continuity: such as 'P1'
 * @param coded trend: the coded plug is on the far ends, else a tie
 * @param length such as '8 h'
 * @param metres of the run; NaN where not known
 * @param asked whether the building is without heat meanwhile and somebody can be asked
 */
record VigilWish(
    Kind kind,
    String ports,
    String leads,
    String returned,
    boolean coded,
    boolean dry,
    boolean loads,
    String length,
    double metres,
    int mainsHertz,
    boolean asked,
    String people,
    String coldest,
    String heatBy) {
  private static final int MOST_LEADS = 16;
  private static final int MOST_LOADS = 8;
  private static final int LEAST_PORTS = 2;

  /** What is missing or wrong, in words; empty where it can begin. */
  String missing(ZonedDateTime now) {
    if (kind == Kind.CALLS) {
      if (leadList().isEmpty()) {
        return "Name the control's terminals on X1, X2 and so on: 'W,Y,G'";
      } else if (dry && loads) {
        return "Dummy loads go with 24 V, not with dry contacts: take one off";
      }
    } else if (mask() == 0) {
      return "Name two or more ports: 'P1=red,P2=white' or 'P1-P8'";
    } else if (kind == Kind.CONTINUITY && returnedPort() < 0) {
      return "Say which of the ports the current comes back through: 'P1'";
    }
    if (micros().isEmpty()) {
      return "Say how long, up to 8 days: '90 min', '8 h', '2 d'";
    }
    return asked() && kind != Kind.CALLS ? siteMissing(now) : "";
  }

  private String siteMissing(ZonedDateTime now) {
    if (people.isBlank()) {
      return "Say who is in the building meanwhile";
    } else if (VigilSite.celsius(coldest).isEmpty()) {
      return "Say how cold it gets outdoors: '8 C' or '46 F'";
    }
    Optional<ZonedDateTime> back = VigilSite.next(heatBy, now);
    if (back.isEmpty()) {
      return "Say by when the heat has to be back: '17:30'";
    }
    return site(now).orElseThrow().mostMicros(now) < VigilSite.LEAST_MICROS
        ? "Too late: the heat has to be back within minutes"
        : "";
  }

  /** What the building is to be left with; empty where that is not asked. */
  Optional<VigilSite> site(ZonedDateTime now) {
    OptionalDouble cold = VigilSite.celsius(coldest);
    Optional<ZonedDateTime> back = VigilSite.next(heatBy, now);
    return !asked || kind == Kind.CALLS || cold.isEmpty() || back.isEmpty()
        ? Optional.empty()
        : Optional.of(new VigilSite(people.strip(), cold.getAsDouble(), back.get()));
  }

  /**
   * Of one that misses nothing.
   *
   * @param number drawn at random, {@link VigilOrder#LEAST_NUMBER} or more
   */
  VigilOrder order(long number, ZonedDateTime now) {
    Map<Integer, String> names = new HashMap<>();
    int ports = mask();
    if (kind == Kind.CALLS) {
      List<String> all = leadList();
      for (int i = 0; i < all.size(); i++) {
        names.put(i, all.get(i));
      }
      ports = (1 << all.size()) - 1;
    } else {
      names.putAll(PortList.parse(this.ports).map(PortList::colours).orElse(Map.of()));
    }
    Optional<VigilSite> site = site(now);
    long micros = micros().orElseThrow();
    double shortest =
        kind == Kind.CONTINUITY && metres > 0
            ? VigilPrompts.shortestOpeningMicros(metres)
            : Double.NaN;
    VigilPrompts.FarEnd end = coded ? VigilPrompts.FarEnd.CODED : VigilPrompts.FarEnd.TIE;
    return new VigilOrder(
        number,
        kind,
        ports,
        names,
        kind == Kind.CONTINUITY ? returnedPort() : 0,
        kind == Kind.CALLS && dry,
        kind == Kind.CALLS && loads ? ports & (1 << MOST_LOADS) - 1 : 0,
        site.map(s -> Math.min(micros, s.mostMicros(now))).orElse(micros),
        shortest,
        kind == Kind.TREND ? end.expectedOhms() : 0,
        mainsHertz,
        site.map(VigilSite::note).orElse(""));
  }

  /** Whether it ends earlier than asked, so that the heat is back in time. */
  boolean shortened(ZonedDateTime now) {
    return site(now).map(s -> s.mostMicros(now) < micros().orElse(0)).orElse(false);
  }

  private OptionalLong micros() {
    return Span.parse(length, KeepVigil.MOST_MICROS);
  }

  private int mask() {
    int mask = PortList.parse(ports).map(PortList::mask).orElse(0);
    return Integer.bitCount(mask) < LEAST_PORTS ? 0 : mask;
  }

  private int returnedPort() {
    int bit = PortList.parse(returned).map(PortList::mask).orElse(0);
    return Integer.bitCount(bit) == 1 && (bit & mask()) != 0
        ? Integer.numberOfTrailingZeros(bit)
        : -1;
  }

  private List<String> leadList() {
    List<String> all = List.of(leads.split(",", -1)).stream().map(String::strip).toList();
    boolean wrong = all.size() > MOST_LEADS || all.stream().anyMatch(String::isEmpty);
    return wrong ? List.of() : all;
  }
}
