package bellwire.app.report;

import bellwire.analysis.landing.Found;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.StateResult;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;

/** A landing check as versioned JSON; docs/landing-files.md states it. */
public final class LandingCheckJson {
  private static final int VERSION = 1;
  private static final ObjectMapper MAPPER =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private LandingCheckJson() {}

  /** The object as text, with a newline at its end. */
  public static String text(
      String title,
      boolean asFound,
      Installation installation,
      List<StateResult> states,
      List<Found> found,
      List<String> cautions) {
    try {
      return MAPPER.writeValueAsString(of(title, asFound, installation, states, found, cautions))
          + "\n";
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public static ObjectNode of(
      String title,
      boolean asFound,
      Installation installation,
      List<StateResult> states,
      List<Found> found,
      List<String> cautions) {
    ObjectNode root = MAPPER.createObjectNode();
    root.put("bellwire-landing-check", VERSION);
    ArrayNode said = root.putArray("cautions");
    cautions.forEach(said::add);
    root.put("title", title)
        .put("plan", asFound ? "as-found" : "as-planned")
        .put("equipment", installation.equipment().title())
        .put("control", installation.control().title());
    ArrayNode landed = root.putArray("landed");
    for (LandingPlan.Landed one : installation.plan().landed()) {
      landed
          .addObject()
          .put("conductor", one.conductor())
          .put("near", one.near())
          .put("far", one.far());
    }
    ArrayNode all = root.putArray("states");
    states.forEach(state -> put(all.addObject(), state));
    ArrayNode findings = root.putArray("findings");
    found.forEach(f -> put(findings.addObject(), f));
    root.put("free-of-findings", found.stream().allMatch(Found::notice));
    return root;
  }

  private static void put(ObjectNode node, StateResult state) {
    node.put("state", state.state().name())
        .put("call", word(state.state().call()))
        .put("control-lit", state.lit());
    number(node, "control-volt", state.controlVolts());
    node.put("settled", state.settled());
    ArrayNode loads = node.putArray("loads");
    for (StateResult.LoadResult load : state.loads()) {
      ObjectNode one = loads.addObject().put("load", load.load().name());
      one.put("energised", word(load.energised())).put("held", load.held());
      number(one, "volt", load.volts());
      number(one, "ampere", load.amps());
    }
    ArrayNode fuses = node.putArray("fuses");
    for (StateResult.FuseResult fuse : state.fuses()) {
      ObjectNode one = fuses.addObject().put("fuse", fuse.name());
      one.put("rated-ampere", fuse.ratedAmps());
      number(one, "ampere", fuse.amps());
      number(one, "opens-not-before-s", fuse.opens().earliestSeconds());
      number(one, "opens-before-s", fuse.opens().latestSeconds());
    }
    ArrayNode transformers = node.putArray("transformers");
    for (StateResult.TransformerResult t : state.transformers()) {
      ObjectNode one = transformers.addObject().put("transformer", t.transformer().name());
      number(one, "ampere", t.amps());
      one.put("rated-ampere", t.transformer().ratedAmps()).put("overloaded", t.overloaded());
    }
  }

  private static void put(ObjectNode node, Found f) {
    node.put("kind", word(f.kind())).put("notice", f.notice());
    strings(node, "states", f.states());
    node.put("title", f.kind().title()).put("words", f.words()).put("remedy", f.kind().remedy());
    strings(node, "path", f.path());
    strings(node, "where", f.where());
  }

  private static void strings(ObjectNode node, String key, List<String> words) {
    ArrayNode array = node.putArray(key);
    words.forEach(array::add);
  }

  /** JSON knows neither infinity nor NaN: null stands for never and for not known. */
  private static void number(ObjectNode node, String key, double x) {
    if (Double.isFinite(x)) {
      node.put(key, x);
    } else {
      node.putNull(key);
    }
  }

  private static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
