package bellwire.app.vigil;

import bellwire.analysis.survey.Ports;
import bellwire.analysis.vigil.VigilProgram;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** What conductors and leads are called. */
record VigilNames(VigilProgram program, Map<Integer, String> names) {

  /** 'P3', 'P3 red', 'X2 W', 'M'. */
  String of(int number) {
    String port = program == VigilProgram.CALLS ? "X" + (number + 1) : Ports.name(number);
    String name = names.getOrDefault(number, "");
    return name.isEmpty() ? port : port + " " + name;
  }

  /** 'P1, P2 and P3'. */
  String all(int mask) {
    return list(mask, " and ");
  }

  /** 'P1, P2 or P3'. */
  String oneOf(int mask) {
    return list(mask, " or ");
  }

  private String list(int mask, String last) {
    List<String> words = new ArrayList<>();
    for (int left = mask; left != 0; left &= left - 1) {
      words.add(of(Integer.numberOfTrailingZeros(left)));
    }
    if (words.size() < 2) {
      return String.join("", words);
    }
    return String.join(", ", words.subList(0, words.size() - 1))
        + last
        + words.get(words.size() - 1);
  }
}
