package bellwire.app.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point.Side;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import bellwire.yaml.Spelling;
import bellwire.yaml.YamlFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A landing that is being edited. Immutable: every edit gives another, so that to undo one is to go
 * back to the one before. Its text is a landing file that needs no other file.
 *
 * @param equipment as named or described; what it is stands in {@code landing}
 * @param oldControl null where it is not known
 * @param landing what it all comes to; both plans are there, and every conductor is in each
 */
public record LandingDraft(
    Part equipment, Part control, @Nullable Part oldControl, LandingFile landing) {

  /** Which of the two plans. */
  public enum Which {
    AS_FOUND,
    AS_PLANNED
  }

  /** Letters of the trade, for an old control that is not described. */
  private static final List<String> LETTERS =
      List.of("R", "RC", "RH", "C", "W", "W1", "W2", "Y", "Y1", "Y2", "G", "O", "B", "E", "L", "S");

  /** With nothing landed. */
  public static LandingDraft start(
      String title, Part equipment, Part control, @Nullable Part oldControl, SurveyedCable cable)
      throws FileException {
    Control old = oldControl == null ? null : oldControl.control();
    LandingFile landing =
        new LandingFile(
            Words.line(title, "A landing"),
            equipment.equipment(),
            control.control(),
            old,
            Words.tidy(cable),
            null,
            null);
    return new LandingDraft(equipment, control, oldControl, landing).whole();
  }

  /**
   * From the text of a landing file that names no file beside it.
   *
   * @param file name to blame
   */
  public static LandingDraft read(String file, String text) throws FileException {
    Section root = root(file, text);
    if (root.has("cable") && root.required("cable").has("survey")) {
      throw root.required("cable")
          .problemAt(
              "survey",
              "a survey in a file of its own",
              "write the conductors' figures in its place");
    }
    try {
      return read(file, text, Path.of(""));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * The same of one that may name a survey's file: its figures are taken in, and {@link #text}
   * needs it no more.
   *
   * @param directory that a survey's file is named from
   * @throws IOException where the survey's file cannot be read
   */
  public static LandingDraft read(String file, String text, Path directory)
      throws FileException, IOException {
    Section root = root(file, text);
    Part equipment = part(root, "equipment", Described.EQUIPMENT);
    Part control = part(root, "control", Described.CONTROLS);
    Part old = root.has("old-control") ? part(root, "old-control", Described.CONTROLS) : null;
    LandingFile landing = LandingFile.parse(file, text, directory);
    return new LandingDraft(equipment, control, old, landing).whole();
  }

  private static Section root(String file, String text) throws FileException {
    return YamlFile.root(file, text, "bellwire-landing", LandingFile.VERSION);
  }

  private static Part part(Section root, String key, List<String> builtIn) throws FileException {
    Part part = new Part(root.verbatim(key));
    if (!part.described() && !builtIn.contains(part.text())) {
      throw root.problemAt(
          key, "not built in: " + key + "=" + part.text(), Spelling.remedy(part.text(), builtIn));
    }
    return part;
  }

  /** The text of a landing file: {@link #read} gives an equal draft. */
  public String text() {
    return DraftText.of(this);
  }

  /** What a check takes; null as found on an old control that is not described. */
  public @Nullable Installation installation(Which which) {
    return which == Which.AS_FOUND ? landing.found() : landing.planned();
  }

  /** One of the two plans. */
  public LandingPlan plan(Which which) {
    LandingPlan plan = which == Which.AS_FOUND ? landing.asFound() : landing.asPlanned();
    return plan == null ? free(which) : plan;
  }

  /** Whether a conductor is under a terminal there, at either end. */
  public boolean anyLanded(Which which) {
    return plan(which).landed().stream().anyMatch(l -> l.near() != null || l.far() != null);
  }

  /** The control that a plan is on; null for an old one that is not described. */
  public @Nullable Control control(Which which) {
    return which == Which.AS_FOUND ? landing.oldControl() : landing.control();
  }

  /** Where ends can be landed; of an old control that is not described, the trade's letters. */
  public List<String> terminals(Which which, Side side) {
    if (side == Side.NEAR) {
      return landing.equipment().terminals();
    }
    Control control = control(which);
    if (control != null) {
      return control.terminals();
    }
    Set<String> letters = new LinkedHashSet<>(LETTERS);
    plan(which)
        .landed()
        .forEach(l -> letters.addAll(l.far() == null ? List.of() : List.of(l.far())));
    return List.copyOf(letters);
  }

  /** Jumpers that can be fitted, or are. */
  public List<Control.Jumper> jumpers(Which which) {
    Control control = control(which);
    Set<Control.Jumper> all = new LinkedHashSet<>(control == null ? List.of() : control.jumpers());
    plan(which).jumpers().stream()
        .sorted((a, b) -> a.toString().compareTo(b.toString()))
        .forEach(all::add);
    return List.copyOf(all);
  }

  public LandingDraft titled(String title) {
    return with(
        new LandingFile(
            Words.line(title, "A landing"),
            landing.equipment(),
            landing.control(),
            landing.oldControl(),
            landing.surveyed(),
            landing.asFound(),
            landing.asPlanned()));
  }

  /** On other equipment; ends under terminals that it lacks become free. */
  public LandingDraft withEquipment(Part other) throws FileException {
    return remade(
        other, control, oldControl, other.equipment(), landing.control(), landing.oldControl());
  }

  /** With another new control; ends under terminals that it lacks become free. */
  public LandingDraft withControl(Part other) throws FileException {
    return remade(
        equipment, other, oldControl, landing.equipment(), other.control(), landing.oldControl());
  }

  /** With another old control, or with one that is not described. */
  public LandingDraft withOldControl(@Nullable Part other) throws FileException {
    Control old = other == null ? null : other.control();
    return remade(equipment, control, other, landing.equipment(), landing.control(), old);
  }

  /** On another cable, such as one surveyed anew; conductors of the same name stay landed. */
  public LandingDraft withCable(SurveyedCable cable) {
    return with(cabled(Words.tidy(cable))).whole();
  }

  /** With another name for a conductor; it stays landed. */
  public LandingDraft renamed(String conductor, String name) {
    String tidy = Words.line(name, conductor);
    LandingPlan found = renamed(plan(Which.AS_FOUND), conductor, tidy);
    LandingPlan planned = renamed(plan(Which.AS_PLANNED), conductor, tidy);
    return withCable(landing.surveyed().renamed(conductor, tidy))
        .planned(Which.AS_FOUND, found)
        .planned(Which.AS_PLANNED, planned);
  }

  private static LandingPlan renamed(LandingPlan plan, String from, String to) {
    List<Landed> all = new ArrayList<>();
    for (Landed l : plan.landed()) {
      all.add(l.conductor().equals(from) ? new Landed(to, l.near(), l.far()) : l);
    }
    return new LandingPlan(all, plan.jumpers(), plan.settings());
  }

  /** With an end under a terminal; null frees it. */
  public LandingDraft landed(Which which, String conductor, Side side, @Nullable String terminal) {
    if (terminal != null && !terminals(which, side).contains(terminal)) {
      throw new IllegalArgumentException("terminal=" + terminal);
    }
    landing.cable().conductor(conductor);
    LandingPlan plan = plan(which);
    List<Landed> all = new ArrayList<>();
    for (Landed l : plan.landed()) {
      String near = side == Side.NEAR ? terminal : l.near();
      String far = side == Side.FAR ? terminal : l.far();
      all.add(l.conductor().equals(conductor) ? new Landed(conductor, near, far) : l);
    }
    return planned(which, new LandingPlan(all, plan.jumpers(), plan.settings()));
  }

  /** With a jumper fitted or taken out. */
  public LandingDraft jumper(Which which, Control.Jumper jumper, boolean fitted) {
    LandingPlan plan = plan(which);
    Set<Control.Jumper> jumpers = new LinkedHashSet<>(plan.jumpers());
    Control.Jumper turned = new Control.Jumper(jumper.side(), jumper.b(), jumper.a());
    jumpers.remove(jumper);
    jumpers.remove(turned);
    if (fitted) {
      jumpers.add(jumper);
    }
    return planned(which, new LandingPlan(plan.landed(), jumpers, plan.settings()));
  }

  /** With a setting of the control at one of its choices. */
  public LandingDraft setting(Which which, String name, String choice) {
    Control control = control(which);
    List<Control.Setting> known = control == null ? List.of() : control.settings();
    if (known.stream().noneMatch(s -> s.name().equals(name) && s.choices().contains(choice))) {
      throw new IllegalArgumentException("setting " + name + "=" + choice);
    }
    LandingPlan plan = plan(which);
    Map<String, String> settings = new LinkedHashMap<>(plan.settings());
    settings.put(name, choice);
    return planned(which, new LandingPlan(plan.landed(), plan.jumpers(), settings));
  }

  /** With another plan, such as one proposed; what does not fit is left out of it. */
  public LandingDraft planned(Which which, LandingPlan plan) {
    boolean found = which == Which.AS_FOUND;
    return with(new LandingFile(
            landing.title(),
            landing.equipment(),
            landing.control(),
            landing.oldControl(),
            landing.surveyed(),
            found ? plan : landing.asFound(),
            found ? landing.asPlanned() : plan))
        .whole();
  }

  private LandingDraft remade(
      Part newEquipment,
      Part newControl,
      @Nullable Part newOld,
      Equipment e,
      Control c,
      @Nullable Control old) {
    LandingFile made =
        new LandingFile(
            landing.title(), e, c, old, landing.surveyed(), landing.asFound(), landing.asPlanned());
    return new LandingDraft(newEquipment, newControl, newOld, made).whole();
  }

  private LandingFile cabled(SurveyedCable cable) {
    return new LandingFile(
        landing.title(),
        landing.equipment(),
        landing.control(),
        landing.oldControl(),
        cable,
        landing.asFound(),
        landing.asPlanned());
  }

  private LandingDraft with(LandingFile other) {
    return new LandingDraft(equipment, control, oldControl, other);
  }

  /** Both plans there, each with every conductor and setting, and nothing that is not there. */
  private LandingDraft whole() {
    LandingFile l = landing;
    return with(
        new LandingFile(
            l.title(),
            l.equipment(),
            l.control(),
            l.oldControl(),
            l.surveyed(),
            fitted(Which.AS_FOUND, l.asFound()),
            fitted(Which.AS_PLANNED, l.asPlanned())));
  }

  private LandingPlan free(Which which) {
    return fitted(which, null);
  }

  private LandingPlan fitted(Which which, @Nullable LandingPlan plan) {
    List<String> near = landing.equipment().terminals();
    Control control = control(which);
    List<String> far = control == null ? null : control.terminals();
    Map<String, Landed> was = new LinkedHashMap<>();
    Set<Control.Jumper> jumpers = new LinkedHashSet<>();
    if (plan != null) {
      plan.landed().forEach(one -> was.put(one.conductor(), one));
      for (Control.Jumper j : plan.jumpers()) {
        List<String> there = j.side() == Side.NEAR ? near : far;
        if (there == null || (there.contains(j.a()) && there.contains(j.b()))) {
          jumpers.add(j);
        }
      }
    }
    List<Landed> landed = new ArrayList<>();
    for (var c : landing.cable().conductors()) {
      Landed old = was.getOrDefault(c.name(), new Landed(c.name(), null, null));
      landed.add(new Landed(c.name(), there(old.near(), near), there(old.far(), far)));
    }
    return new LandingPlan(landed, jumpers, settings(control, plan));
  }

  private static @Nullable String there(@Nullable String terminal, @Nullable List<String> known) {
    return terminal == null || known == null || known.contains(terminal) ? terminal : null;
  }

  private static Map<String, String> settings(
      @Nullable Control control, @Nullable LandingPlan plan) {
    Map<String, String> settings = new LinkedHashMap<>();
    if (control != null) {
      for (Control.Setting s : control.settings()) {
        String set = plan == null ? null : plan.settings().get(s.name());
        settings.put(s.name(), set != null && s.choices().contains(set) ? set : s.choices().get(0));
      }
    }
    return settings;
  }
}
