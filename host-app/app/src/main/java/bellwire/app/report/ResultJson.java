package bellwire.app.report;

import bellwire.analysis.attached.Landing;
import bellwire.analysis.fault.Explanation;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.survey.AlongRun;
import bellwire.analysis.survey.Finding;
import bellwire.analysis.survey.Foreign;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.survey.SurveyResult.PairResult;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.survey.SurveyOutcome;
import bellwire.app.survey.SurveyOutcome.PhaseTime;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A survey's outcome as JSON, version 1; docs/survey-json.md describes it field by field. */
public final class ResultJson {
  public static final int VERSION = 1;

  private static final ObjectMapper MAPPER =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private ResultJson() {}

  /** Writes the document whole or not at all. */
  public static void write(
      Path file, SurveyOutcome outcome, Map<Integer, String> colours, List<String> cautions)
      throws IOException {
    WholeFile.write(file, text(outcome, colours, cautions));
  }

  /** The document as text, ending in a newline. */
  public static String text(
      SurveyOutcome outcome, Map<Integer, String> colours, List<String> cautions)
      throws IOException {
    ObjectNode root = MAPPER.createObjectNode();
    root.put("bellwire-survey", VERSION);
    ArrayNode told = root.putArray("cautions");
    cautions.forEach(told::add);
    root.putObject("board")
        .put("revision", outcome.identity().revision())
        .put("agent", outcome.identity().agentVersion());
    foreign(root, outcome);
    SurveyResult result = outcome.result();
    if (result != null) {
      result(root, result, colours);
      LandingJson.attached(root, outcome.attached());
      Landing landing = outcome.landing();
      if (landing != null) {
        LandingJson.put(root, landing);
      }
    }
    ArrayNode times = root.putArray("times");
    for (PhaseTime time : outcome.times()) {
      times
          .addObject()
          .put("phase", time.phase())
          .put("device-seconds", time.deviceMicros() * 1e-6)
          .put("conversion-seconds", time.conversionMicros() * 1e-6)
          .put("readings", time.readings());
    }
    return MAPPER.writeValueAsString(root) + "\n";
  }

  private static void foreign(ObjectNode root, SurveyOutcome outcome) {
    ObjectNode interlock = root.putObject("interlock");
    interlock.put("stopped-the-survey", outcome.stoppedByVoltage());
    ArrayNode tripped = interlock.putArray("tripped");
    Ports.list(outcome.trippedFlags()).forEach(p -> tripped.add(Ports.name(p)));
    Foreign foreign = outcome.foreign();
    if (foreign != null) {
      ObjectNode node = interlock.putObject("voltage");
      ArrayNode between = node.putArray("between").add(Ports.name(foreign.a()));
      if (foreign.b() >= 0) {
        between.add(Ports.name(foreign.b()));
      }
      node.put("volts-rms", foreign.volts())
          .put("volts-rms-under-test-load", foreign.loadedVolts())
          .put("alternating", foreign.alternating())
          .put("driven", foreign.driven());
      ArrayNode alike = node.putArray("joined-to-one-of-them");
      foreign.alike().forEach(p -> alike.add(Ports.name(p)));
    }
  }

  private static void result(ObjectNode root, SurveyResult result, Map<Integer, String> colours) {
    ArrayNode phases = root.putArray("phases");
    result.phases().forEach(phases::add);
    root.put("metal-checked", result.metalChecked());
    put(root, "length", result.length());
    root.put("gauge", result.gauge());
    ArrayNode conductors = root.putArray("conductors");
    for (ConductorResult c : result.conductors()) {
      ObjectNode node = conductors.addObject();
      node.put("port", Ports.name(c.port()));
      node.put("near-colour", colours.get(c.port()));
      if (c.position() == 0) {
        node.putNull("far-position");
      } else {
        node.put("far-position", c.position());
      }
      if (result.ties() != null) {
        TiesJson.farPossible(node, result.ties(), c.port());
      }
      node.put("odds", c.odds());
      put(node, "resistance", c.ohms());
      AlongRun at = c.openAt();
      put(node, "open-at", at == null ? null : at.fraction());
      put(node, "open-at-distance", at == null ? null : at.metres());
      node.put("standing", c.standing().name().toLowerCase(Locale.ROOT)).put("reason", c.reason());
    }
    if (result.ties() != null) {
      TiesJson.put(root.putObject("ties"), result.ties());
    }
    ArrayNode pairs = root.putArray("pairs");
    for (PairResult p : result.pairs()) {
      ObjectNode node = pairs.addObject();
      node.putArray("between").add(Ports.name(p.a())).add(Ports.name(p.b()));
      put(node, "resistance", p.ohms());
      if (p.ohms() == null) {
        node.put("above-ohm", p.aboveOhms());
      }
      node.put("standing", p.standing().name().toLowerCase(Locale.ROOT)).put("reason", p.reason());
    }
    ArrayNode findings = root.putArray("findings");
    for (Finding finding : result.findings()) {
      ObjectNode node = findings.addObject();
      node.put("kind", finding.kind().name().toLowerCase(Locale.ROOT).replace('_', '-'));
      ArrayNode ports = node.putArray("ports");
      finding.ports().forEach(p -> ports.add(Ports.name(p)));
      node.put("title", finding.kind().title())
          .put("words", finding.words())
          .put("remedy", finding.kind().remedy());
      AlongRun at = finding.at();
      put(node, "at", at == null ? null : at.fraction());
      put(node, "distance", at == null ? null : at.metres());
    }
    explanations(root, result.explanations());
  }

  private static void explanations(ObjectNode root, List<Explanation> explanations) {
    ArrayNode list = root.putArray("explanations");
    for (Explanation explanation : explanations) {
      ObjectNode node = list.addObject();
      node.put("probability", explanation.probability());
      node.put("explains-all", explanation.explained());
      ArrayNode faults = node.putArray("faults");
      for (Fault fault : explanation.faults()) {
        ObjectNode one = faults.addObject();
        one.put("kind", fault.kind().name().toLowerCase(Locale.ROOT));
        ArrayNode ports = one.putArray("ports");
        fault.ports().forEach(p -> ports.add(Ports.name(p)));
        ArrayNode others = one.putArray("to");
        fault.others().forEach(p -> others.add(Ports.name(p)));
        put(one, "at", fault.place());
        put(one, "resistance", fault.ohms());
      }
    }
  }

  static void put(ObjectNode node, String name, @Nullable Quantity quantity) {
    if (quantity == null) {
      node.putNull(name);
    } else {
      node.putObject(name)
          .put("value", quantity.value())
          .put("standard-uncertainty", quantity.u())
          .put("unit", quantity.unit());
    }
  }
}
