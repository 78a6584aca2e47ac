package bellwire.benchmarks;

import java.util.List;
import java.util.Locale;

/**
 * One kind of work, ours and the peers'.
 *
 * @param unit of all figures; less is better
 */
record Row(String work, String unit, String ours, Figure figure, List<Peer> peers) {
  record Peer(String name, Figure figure) {}

  /** Lines of the table: the work, who did it, its figure, how many times as much as ours. */
  String markdown() {
    StringBuilder lines = new StringBuilder();
    lines.append(line(work + ", " + unit, "**" + ours + "**", figure, "1"));
    for (Peer peer : peers) {
      double ratio = peer.figure.median() / figure.median();
      String times = String.format(Locale.ROOT, ratio < 10 ? "%.2f" : "%.0f", ratio);
      lines.append(line("", peer.name, peer.figure, times));
    }
    return lines.toString();
  }

  private static String line(String work, String who, Figure figure, String ratio) {
    return "| " + work + " | " + who + " | " + figure + " | " + ratio + " |\n";
  }
}
