package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.loop.Control;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;

/** What was seen state by state, merged into findings. */
final class Sightings {
  /** Words, path and places of a finding; asked for once a finding is made of its sightings. */
  record Account(String words, List<String> path, List<String> where) {
    Account(String words) {
      this(words, List.of(), List.of());
    }
  }

  private record Subject(LoopFinding kind, String about) {}

  private static final class Seen {
    final Set<String> states = new LinkedHashSet<>();
    double weight = Double.NEGATIVE_INFINITY;
    Supplier<Account> account = () -> new Account("");
    boolean notice = true;
  }

  private final Map<Subject, Seen> all = new LinkedHashMap<>();
  private final List<String> states;

  Sightings(List<Control.State> states) {
    this.states = states.stream().map(Control.State::name).toList();
  }

  /**
   * @param about what it is about: sightings of one kind about one thing make one finding
   * @param weight its account is that of the greatest weight
   */
  void add(
      LoopFinding kind,
      String about,
      String state,
      double weight,
      boolean notice,
      Supplier<Account> account) {
    Seen seen = all.computeIfAbsent(new Subject(kind, about), k -> new Seen());
    seen.states.add(state);
    seen.notice &= notice;
    if (weight > seen.weight) {
      seen.weight = weight;
      seen.account = account;
    }
  }

  void fault(LoopFinding kind, String about, Scene in, double weight, Supplier<Account> account) {
    add(kind, about, in.state(), weight, false, account);
  }

  void notice(LoopFinding kind, String about, Scene in, double weight, Supplier<Account> account) {
    add(kind, about, in.state(), weight, true, account);
  }

  boolean faults() {
    return all.values().stream().anyMatch(s -> !s.notice);
  }

  /** Worst first, notices last. */
  List<Found> found() {
    List<Found> found = new ArrayList<>();
    all.forEach(
        (subject, seen) -> {
          Account account = seen.account.get();
          List<String> in = states.stream().filter(seen.states::contains).toList();
          found.add(
              new Found(
                  subject.kind(),
                  in.size() == states.size() ? List.of() : in,
                  account.words(),
                  account.path(),
                  account.where(),
                  seen.notice));
        });
    found.sort(Comparator.comparing(Found::notice).thenComparing(Found::kind));
    return List.copyOf(found);
  }
}
