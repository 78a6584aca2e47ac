package bellwire.hardware;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class NetlistRulesTest {
  private final Netlist netlist = Netlist.revisionA();
  private final BoardDescription board = BoardDescription.revisionA();

  @Test
  void theBoardKeepsTheRules() {
    assertThat(breaches(netlist)).isEmpty();
    assertThat(netlist.parts()).hasSizeGreaterThan(1000);
  }

  @Test
  void aNetWithOnePinIsFound() {
    assertThat(breaches(with("R203", "2", "ELSEWHERE")))
        .anyMatch(breach -> breach.contains("ELSEWHERE has one pin only"));
  }

  @Test
  void aMissingPinIsFound() {
    assertThat(breaches(without("U203", "V-")))
        .containsExactly("U203 lacks pin V-: give its net, or open");
  }

  @Test
  void anUnknownPinIsFound() {
    assertThat(breaches(with("R203", "3", "VP")))
        .containsExactly("R203 has a pin 3 that limiter has not");
  }

  @Test
  void aValueWithoutANameInTheBoardsFileIsFound() {
    Part part = netlist.part("R203");
    Part wrong =
        new Part(
            part.ref(),
            part.line(),
            new ValueExpression("limiter-ohm / 2"),
            part.pins(),
            part.block(),
            part.sheet(),
            part.instance());
    assertThat(breaches(replacing(wrong))).anyMatch(breach -> breach.contains("limiter-ohm"));
  }

  /** Each part of a deck can fail in some way, or the study of faults would pass it by. */
  @Test
  void everyPartOfADeckHasFaultsButOnesWithoutAModel() {
    for (PartLine line : PartsList.revisionA().lines()) {
      boolean readsOnly = line.kind().equals("multiplexer-16") || line.name().equals("converter");
      if (!line.model().isEmpty() && !readsOnly) {
        assertThat(line.faults()).as(line.name()).isNotEmpty();
      }
    }
  }

  private List<String> breaches(Netlist of) {
    return NetlistRules.breaches(of, PartsList.revisionA(), board);
  }

  private Netlist with(String ref, String pin, String net) {
    Part part = netlist.part(ref);
    Map<String, String> pins = new LinkedHashMap<>(part.pins());
    pins.put(pin, net);
    return replacing(pinned(part, pins));
  }

  private Netlist without(String ref, String pin) {
    Part part = netlist.part(ref);
    Map<String, String> pins = new LinkedHashMap<>(part.pins());
    pins.remove(pin);
    return replacing(pinned(part, pins));
  }

  private static Part pinned(Part part, Map<String, String> pins) {
    return new Part(
        part.ref(), part.line(), part.value(), pins, part.block(), part.sheet(), part.instance());
  }

  private Netlist replacing(Part other) {
    List<Part> parts = new ArrayList<>();
    netlist.parts().forEach(part -> parts.add(part.ref().equals(other.ref()) ? other : part));
    return new Netlist(parts, netlist.sheets(), netlist.lists());
  }
}
