package bellwire.link;

import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * The last requests and their answers, so that a request repeated is answered again and not done
 * again. Bounded: the host keeps its unanswered requests within {@link
 * HostEndpoint#REQUEST_WINDOW}, half of what is remembered here.
 */
final class RequestLedger {
  static final int REMEMBERED = 2 * HostEndpoint.REQUEST_WINDOW;

  private final Map<Long, Optional<Message.Reply>> answers = new LinkedHashMap<>();

  boolean knows(long request) {
    return answers.containsKey(request);
  }

  /** The answer given, empty while the request is under way or unknown. */
  Optional<Message.Reply> answer(long request) {
    return answers.getOrDefault(request, Optional.empty());
  }

  void begin(long request) {
    if (answers.size() == REMEMBERED) {
      Iterator<Long> eldest = answers.keySet().iterator();
      eldest.next();
      eldest.remove();
    }
    answers.put(request, Optional.empty());
  }

  void finish(Message.Reply reply) {
    answers.computeIfPresent(reply.request(), (request, before) -> Optional.of(reply));
  }
}
