package bellwire.link;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The host's requests without an answer yet, oldest first. */
final class PendingRequests {

  private static final class Pending {
    private final byte[] item;
    private final long giveUpMicros;
    private long dueMicros = Long.MIN_VALUE;

    private Pending(byte[] item, long giveUpMicros) {
      this.item = item;
      this.giveUpMicros = giveUpMicros;
    }
  }

  private final Map<Long, Pending> pending = new LinkedHashMap<>();

  int size() {
    return pending.size();
  }

  /** The oldest one's identifier, or {@code none}. */
  long oldest(long none) {
    return pending.isEmpty() ? none : pending.keySet().iterator().next();
  }

  void add(long request, byte[] item, long giveUpMicros) {
    pending.put(request, new Pending(item, giveUpMicros));
  }

  /** Whether it was waiting. */
  boolean remove(long request) {
    return pending.remove(request) != null;
  }

  /** Sends those whose time has come, and again when the line has carried it and a retry later. */
  void sendDue(long nowMicros, long retryMicros, FramePort port) {
    for (Pending each : pending.values()) {
      if (nowMicros >= each.dueMicros) {
        port.writeItem(each.item);
        each.dueMicros = port.lineFreeMicros() + retryMicros;
      }
    }
  }

  /** Sends all anew at the next occasion. */
  void dueNow() {
    pending.values().forEach(each -> each.dueMicros = Long.MIN_VALUE);
  }

  /** Takes out those that have waited too long. */
  List<Long> expire(long nowMicros) {
    List<Long> expired = new ArrayList<>();
    Iterator<Map.Entry<Long, Pending>> all = pending.entrySet().iterator();
    while (all.hasNext()) {
      Map.Entry<Long, Pending> entry = all.next();
      if (nowMicros >= entry.getValue().giveUpMicros) {
        expired.add(entry.getKey());
        all.remove();
      }
    }
    return expired;
  }

  List<Long> clear() {
    List<Long> all = List.copyOf(pending.keySet());
    pending.clear();
    return all;
  }
}
