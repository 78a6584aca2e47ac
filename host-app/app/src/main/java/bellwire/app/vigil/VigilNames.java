package bellwire.app.vigil;

import bellwire.analysis.survey.Ports;
import bellwire.analysis.vigil.VigilProgram;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** What conductors and leads are called. */
record VigilNames(VigilProgram program, Map<Integer, String> names) {

  private static final int FEWEST_IN_A_ROW = 4;
  private static final int METAL = 16;

  /** 'P3', 'P3 red', 'X2 W', 'M'. */
  String of(int number) {
    String port = program == VigilProgram.CALLS ? "X" + (number + 1) : Ports.name(number);
    String name = names.getOrDefault(number, "");
    return name.isEmpty() ? port : port + " " + name;
  }

  /** 'P1, P2 and P3'; a row of four and more without names as 'P1 to P4'. */
  String all(int mask) {
    return list(mask, " and ");
  }

  /** 'P1, P2 or P3'. */
  String oneOf(int mask) {
    return list(mask, " or ");
  }

  private String list(int mask, String last) {
    List<String> words = new ArrayList<>();
    for (int left = mask; left != 0; ) {
      int first = Integer.numberOfTrailingZeros(left);
      int end = first + 1;
      while (nameless(first) && nameless(end) && (left >>> end & 1) != 0) {
        end++;
      }
      if (end - first >= FEWEST_IN_A_ROW) {
        words.add(of(first) + " to " + of(end - 1));
      } else {
        end = first + 1;
        words.add(of(first));
      }
      left &= -1 << end;
    }
    if (words.size() < 2) {
      return String.join("", words);
    }
    return String.join(", ", words.subList(0, words.size() - 1))
        + last
        + words.get(words.size() - 1);
  }

  private boolean nameless(int number) {
    return number < METAL && names.getOrDefault(number, "").isEmpty();
  }
}
