package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Both ends over a bad line, in virtual time. Every failure names the seed that repeats it. */
class LossyLinkTest {
  private static final TestLine.Harm BAD = new TestLine.Harm(0.05, 0.05, 0.05);

  /**
   * Data exactly once and in order, requests at most once, over lost, changed, doubled, cut bytes.
   */
  @Test
  void everythingArrivesOnceAndInOrder() {
    long resent = 0;
    long repeated = 0;
    long damaged = 0;
    long duplicates = 0;
    long frames = 0;
    for (long seed = 1; seed <= 60; seed++) {
      TestBench bench = new TestBench(seed, BAD, TestBench.LIMITS);
      List<Message.Data> sent = new ArrayList<>();
      for (int i = 0; i < 6000; i++) {
        if (bench.random.nextInt(12) == 0) {
          Message.Data data = TestMessages.data(bench.random);
          bench.agent.send(data, bench.now);
          sent.add(data);
        }
        if (bench.random.nextInt(200) == 0) {
          ask(bench);
        }
        cutNowAndThen(bench);
        bench.step();
      }
      heal(bench);
      bench.drain(20_000_000);
      bench.run(10_000_000); // the last requests' answers, or their time is up
      String context = "seed=" + seed;
      assertThat(bench.gaps).as(context).isEmpty();
      assertDelivered(context, bench.got, sent);
      assertRequests(context, bench);
      assertThat(bench.events).as(context).noneMatch(event -> event.startsWith("restart"));
      frames += sent.size();
      resent += bench.agent.counts().resent();
      repeated += bench.agent.counts().repeated();
      damaged += bench.host.counts().frames().damaged() + bench.agent.counts().frames().damaged();
      duplicates += bench.host.counts().duplicates();
    }
    // The line was bad enough for all of it to be needed.
    assertThat(frames).isGreaterThan(20_000);
    assertThat(resent).isGreaterThan(frames / 4);
    assertThat(repeated).isGreaterThan(100);
    assertThat(damaged).isGreaterThan(1000);
    assertThat(duplicates).isGreaterThan(1000);
  }

  /** A ring too small for a cut: what is missing is named, what came is in order. */
  @Test
  void whatTheRingCouldNotKeepIsReportedAsAGap() {
    AgentEndpoint.Limits small =
        new AgentEndpoint.Limits(40, 1 << 20, 16, 8192, 400_000, 3_000_000, 100_000);
    long lostFrames = 0;
    for (long seed = 1; seed <= 40; seed++) {
      TestBench bench = new TestBench(seed, BAD, small);
      List<Message.Data> sent = new ArrayList<>();
      for (int i = 0; i < 6000; i++) {
        if (bench.random.nextInt(12) == 0) {
          Message.Data data = TestMessages.data(bench.random);
          bench.agent.send(data, bench.now);
          sent.add(data);
        }
        cutNowAndThen(bench);
        bench.step();
      }
      heal(bench);
      bench.drain(20_000_000);
      String context = "seed=" + seed;
      boolean[] accounted = new boolean[sent.size()];
      long before = -1;
      for (DataFrame frame : bench.got) {
        assertThat(frame.sequence()).as(context).isGreaterThan(before);
        before = frame.sequence();
        assertSame(context, frame.message(), sent.get((int) frame.sequence()));
        accounted[(int) frame.sequence()] = true;
      }
      long missing = 0;
      for (long[] gap : bench.gaps) {
        for (long i = gap[0]; i < gap[1]; i++) {
          assertThat(accounted[(int) i]).as(context).isFalse();
          accounted[(int) i] = true;
          missing++;
        }
      }
      // Frames dropped before the host's first greeting were never its to miss.
      long first = bench.got.isEmpty() ? 0 : Math.min(bench.got.get(0).sequence(), firstGap(bench));
      for (int i = (int) first; i < accounted.length; i++) {
        assertThat(accounted[i]).as("%s sequence=%d", context, i).isTrue();
      }
      assertThat(missing).as(context).isLessThanOrEqualTo(bench.agent.counts().dropped());
      lostFrames += missing;
    }
    assertThat(lostFrames).as("the test tests something").isPositive();
  }

  /** Restarts in the middle of everything: found out, and no request done by two boots. */
  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void aRestartOfTheAgentIsFoundOut(boolean bad) {
    for (long seed = 1; seed <= 40; seed++) {
      String context = "seed=" + seed;
      TestBench bench = new TestBench(seed, bad ? BAD : TestLine.Harm.NONE, TestBench.LIMITS);
      bench.run(3_000_000);
      for (int boot = 0; boot < 5; boot++) {
        List<Message.Data> sent = new ArrayList<>();
        int from = bench.got.size();
        for (int i = 0; i < 1000; i++) {
          if (bench.random.nextInt(12) == 0) {
            Message.Data data = TestMessages.data(bench.random);
            bench.agent.send(data, bench.now);
            sent.add(data);
          }
          if (bench.random.nextInt(100) == 0) {
            ask(bench);
          }
          bench.step();
        }
        boolean drained = boot % 2 == 0;
        if (drained) {
          bench.drain(30_000_000);
        }
        long before = bench.bootId;
        bench.restartAgent(TestBench.LIMITS);
        awaitRestart(bench, context, before);
        List<DataFrame> got = bench.got.subList(from, bench.got.size());
        List<Message.Data> expected = drained ? sent : sent.subList(0, got.size());
        assertDelivered(context + " boot=" + boot, got, expected);
      }
      bench.toHost.harm(TestLine.Harm.NONE);
      bench.toAgent.harm(TestLine.Harm.NONE);
      bench.run(12_000_000);
      assertRequests(context, bench);
    }
  }

  private static void awaitRestart(TestBench bench, String context, long before) {
    String event = "restart " + before + " " + bench.bootId;
    for (int i = 0; i < 4000 && !bench.events.contains(event); i++) {
      bench.step();
    }
    assertThat(bench.events).as(context).contains(event);
  }

  private static long firstGap(TestBench bench) {
    return bench.gaps.isEmpty() ? Long.MAX_VALUE : bench.gaps.get(0)[0];
  }

  private static void ask(TestBench bench) {
    if (bench.asked.size() - bench.replies.size() - bench.unanswered.size() >= 10) {
      return;
    }
    bench.asked.add(
        switch (bench.random.nextInt(3)) {
          case 0 -> bench.host.arm(bench.now);
          case 1 -> bench.host.run(3, TestMessages.largestRun().steps().subList(0, 5), bench.now);
          default -> bench.host.stop(bench.now);
        });
  }

  private static void cutNowAndThen(TestBench bench) {
    if (bench.random.nextInt(1500) == 0) {
      bench.toHost.cut(true);
      bench.toAgent.cut(bench.random.nextBoolean());
    } else if (bench.random.nextInt(500) == 0) {
      bench.toHost.cut(false);
      bench.toAgent.cut(false);
    }
  }

  private static void heal(TestBench bench) {
    bench.toHost.cut(false);
    bench.toAgent.cut(false);
    bench.toHost.harm(TestLine.Harm.NONE);
    bench.toAgent.harm(TestLine.Harm.NONE);
  }

  private static void assertDelivered(
      String context, List<DataFrame> got, List<Message.Data> sent) {
    assertThat(got).as(context).hasSameSizeAs(sent);
    for (int i = 0; i < sent.size(); i++) {
      assertThat(got.get(i).sequence()).as(context).isEqualTo(i);
      assertSame(context, got.get(i).message(), sent.get(i));
    }
  }

  /** By their bytes: a record with arrays has no equality of its own. */
  private static void assertSame(String context, Message.Data got, Message.Data sent) {
    assertThat(MessageCodec.encode(new DataFrame(0, 0, got)))
        .as(context)
        .isEqualTo(MessageCodec.encode(new DataFrame(0, 0, sent)));
  }

  private static void assertRequests(String context, TestBench bench) {
    assertThat(bench.done.values()).as(context).allMatch(times -> times == 1);
    assertThat(bench.asked).as(context).containsAll(bench.done.keySet());
    for (long request : bench.asked) {
      boolean replied = bench.replies.containsKey(request);
      assertThat(replied ^ bench.unanswered.contains(request))
          .as("%s request=%d", context, request)
          .isTrue();
      if (replied) {
        assertThat(bench.done).as(context).containsKey(request);
      }
    }
    assertThat(bench.replies).as(context).isNotEmpty();
  }
}
