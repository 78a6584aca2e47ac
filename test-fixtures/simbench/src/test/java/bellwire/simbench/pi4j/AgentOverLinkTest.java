package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.agent.Agent;
import bellwire.agent.EndpointLink;
import bellwire.board.BoardDescription;
import bellwire.link.ByteChannel;
import bellwire.link.DataFrame;
import bellwire.link.HostEndpoint;
import bellwire.link.HostListener;
import bellwire.link.Message;
import bellwire.link.Rate;
import bellwire.simbench.VirtualClock;
import bellwire.simbench.chip.BoardChips;
import bellwire.simbench.chip.ConverterErrors;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Chips, agent, frames and host end together; only the copper is a fake. */
class AgentOverLinkTest {

  private static final class Pipe implements ByteChannel {
    private final Deque<Byte> incoming;
    private final Deque<Byte> outgoing;

    Pipe(Deque<Byte> incoming, Deque<Byte> outgoing) {
      this.incoming = incoming;
      this.outgoing = outgoing;
    }

    @Override
    public int read(byte[] into) {
      int count = 0;
      while (count < into.length && !incoming.isEmpty()) {
        into[count++] = incoming.removeFirst();
      }
      return count;
    }

    @Override
    public void write(byte[] bytes, int off, int len) {
      for (int i = off; i < off + len; i++) {
        outgoing.addLast(bytes[i]);
      }
    }
  }

  private static final class Host implements HostListener {
    final List<Message.Welcome> welcomes = new ArrayList<>();
    final List<Message.Reply> replies = new ArrayList<>();
    final List<Message.Data> data = new ArrayList<>();
    final List<String> complaints = new ArrayList<>();

    @Override
    public void linkUp(Message.Welcome welcome) {
      welcomes.add(welcome);
    }

    @Override
    public void linkLost(String reason) {
      complaints.add(reason);
    }

    @Override
    public void otherProtocol(Message.Welcome welcome) {
      complaints.add("protocol");
    }

    @Override
    public void agentRestarted(long oldBootId, long newBootId) {
      complaints.add("restarted");
    }

    @Override
    public void data(DataFrame frame) {
      data.add(frame.message());
    }

    @Override
    public void lostOfEarlier(long boot, long fromSequence, long toSequence) {}

    @Override
    public void lost(long fromSequence, long toSequence) {
      complaints.add("lost");
    }

    @Override
    public void unreadable(long sequence, String reason) {
      complaints.add(reason);
    }

    @Override
    public void replied(Message.Reply reply) {
      replies.add(reply);
    }

    @Override
    public void alive(Message.Alive answer) {}

    @Override
    public void unanswered(long request, String reason) {
      complaints.add(reason);
    }

    @Override
    public void notUnderstood(int type) {
      complaints.add("notUnderstood");
    }
  }

  @Test
  void aHostGreetsArmsRunsAndGetsItsReadings() {
    BoardDescription board = BoardDescription.revisionA();
    VirtualClock clock = new VirtualClock();
    FakeCopper copper = new FakeCopper();
    Deque<Byte> up = new ArrayDeque<>();
    Deque<Byte> down = new ArrayDeque<>();
    BoardChips chips =
        new BoardChips(board, copper, clock, ConverterErrors.none(), new SplittableRandom(1));
    try (SimulatedPi pi = SimulatedPi.open(chips, board)) {
      EndpointLink link = EndpointLink.open(new Pipe(down, up), 5, "test", "A", 921_600);
      Agent agent = new Agent(pi.sensingBoard(), board, link, 1000, clock::micros);
      Host host = new Host();
      HostEndpoint.Timing timing = HostEndpoint.Timing.forBaud(921_600);
      HostEndpoint end = new HostEndpoint(new Pipe(up, down), host, timing, 1);
      long arm = -1;
      long run = -1;
      for (int ms = 0; ms < 5000; ms++) {
        agent.step(clock.micros(), clock.micros());
        end.step(clock.micros());
        clock.advanceTo(clock.nanos() + 1_000_000);
        if (ms == 1100) {
          arm = end.arm(clock.micros());
        } else if (ms == 2500) {
          run = end.run(9, List.of(Rig.driving(Rate.SPS_400, 500)), clock.micros());
        }
      }
      assertThat(host.complaints).isEmpty();
      assertThat(host.welcomes.get(0).selfCheck()).contains("not yet run");
      assertThat(host.replies)
          .containsExactly(new Message.Reply(arm, true, ""), new Message.Reply(run, true, ""));
      int readings =
          host.data.stream()
              .filter(Message.Samples.class::isInstance)
              .mapToInt(m -> ((Message.Samples) m).code().length)
              .sum();
      assertThat(readings).isEqualTo(500);
      assertThat(host.data).last().isEqualTo(new Message.Ended(9, Message.Ended.Outcome.DONE, ""));
      assertThat(copper.violations()).isEmpty();
    }
  }
}
