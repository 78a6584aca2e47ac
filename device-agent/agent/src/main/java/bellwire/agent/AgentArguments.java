package bellwire.agent;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * What the program was asked for.
 *
 * @param check whether only to look at what it needs
 * @param tickSeconds after so long it ends and prints how well it kept its tick; 0 for never
 */
record AgentArguments(boolean check, int tickSeconds, Optional<Path> configuration) {

  /** Words that ask for nothing known; the message is the usage. */
  static final class Wrong extends Exception {
    private static final long serialVersionUID = 1L;

    Wrong() {
      super("usage: bellwire-agent [check | tick SECONDS] [configuration file]");
    }
  }

  /** A day and a bit at most. */
  private static final String SECONDS = "[1-9][0-9]{0,4}";

  static AgentArguments of(List<String> words) throws Wrong {
    String first = words.isEmpty() ? "" : words.get(0);
    boolean check = first.equals("check");
    boolean tick = first.equals("tick");
    if (tick && (words.size() < 2 || !words.get(1).matches(SECONDS))) {
      throw new Wrong();
    }
    List<String> files = words.subList(check ? 1 : tick ? 2 : 0, words.size());
    if (files.size() > 1 || files.stream().anyMatch(file -> file.startsWith("-"))) {
      throw new Wrong();
    }
    int seconds = tick ? Integer.parseInt(words.get(1)) : 0;
    return new AgentArguments(check, seconds, files.stream().findFirst().map(Path::of));
  }
}
