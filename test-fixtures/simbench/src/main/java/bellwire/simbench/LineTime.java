package bellwire.simbench;

import bellwire.agent.HostLink;
import bellwire.link.Message;
import org.jspecify.annotations.Nullable;

/**
 * The agent's link where the bench's time runs faster than the line's: timeouts of the link count
 * in the time of the host, which is real. Device times in the data stay the bench's.
 */
final class LineTime implements HostLink {
  private final HostLink link;
  private final double speed;

  /**
   * @param speed the bench's seconds in one second of the line
   */
  LineTime(HostLink link, double speed) {
    if (!(speed > 0)) {
      throw new IllegalArgumentException("speed=" + speed);
    }
    this.link = link;
    this.speed = speed;
  }

  @Override
  public void step(long nowMicros) {
    link.step((long) (nowMicros / speed));
  }

  @Override
  public Message.@Nullable FromHost poll() {
    return link.poll();
  }

  @Override
  public void send(Message.Data message, long nowMicros) {
    link.send(message, nowMicros);
  }

  @Override
  public void reply(Message.FromAgent answer) {
    link.reply(answer);
  }

  @Override
  public boolean hostPresent() {
    return link.hostPresent();
  }

  @Override
  public void recording(boolean on) {
    link.recording(on);
  }

  @Override
  public long diskBytes() {
    return link.diskBytes();
  }

  @Override
  public void selfCheck(String state) {
    link.selfCheck(state);
  }
}
