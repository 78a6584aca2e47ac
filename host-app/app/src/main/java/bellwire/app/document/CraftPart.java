package bellwire.app.document;

import bellwire.app.document.ReportContents.Shot;
import bellwire.app.document.block.Block;
import bellwire.app.document.block.Mark;
import bellwire.app.document.block.Span;
import bellwire.app.document.block.Span.Tone;
import bellwire.app.job.Checklist;
import bellwire.app.job.Stage;
import bellwire.app.job.Tick;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The checklist of the craft, and photographs as found and as left. */
final class CraftPart {
  private final ReportContents contents;
  private final Figures figures;

  CraftPart(ReportContents contents, Figures figures) {
    this.contents = contents;
    this.figures = figures;
  }

  List<Block> blocks() {
    List<Block> out = new ArrayList<>(List.of(new Block.Heading(1, "Checklist of the craft")));
    Map<String, Tick> ticks = new LinkedHashMap<>();
    contents.ticks().forEach(t -> ticks.put(t.item(), t));
    List<List<List<Span>>> rows = new ArrayList<>();
    for (Checklist.Item item : Checklist.items()) {
      rows.add(row(item.words(), ticks.remove(item.key())));
    }
    // Items of another version are not dropped.
    ticks.values().forEach(t -> rows.add(row(t.item(), t)));
    out.add(new Block.Table(List.of("item", "state", "known how", "by, when", "note"), rows));
    photographs(out);
    return out;
  }

  private List<List<Span>> row(String words, @Nullable Tick tick) {
    if (tick == null || tick.state() == Tick.State.OPEN) {
      String note = tick == null ? "" : tick.note();
      return List.of(
          Span.list(words),
          List.of(Span.toned("\u25a1\u00a0open", Tone.UNDECIDED)),
          Span.list(""),
          Span.list(""),
          Span.list(note));
    }
    Mark mark = Summary.mark(tick.basis());
    String by = tick.by().isEmpty() ? "" : Span.own(tick.by()) + ", ";
    return List.of(
        Span.list(words),
        List.of(state(tick.state())),
        Span.list(mark.shape() + "\u00a0" + mark.word()),
        Span.list(by + figures.when(tick.atUnixMicros())),
        Span.list(tick.note()));
  }

  private static Span state(Tick.State state) {
    return switch (state) {
      case OPEN -> Span.toned("\u25a1\u00a0open", Tone.UNDECIDED);
      case DONE -> Span.toned("\u2713\u00a0done", Tone.SOUND);
      case NOT_DONE -> Span.toned("\u2717\u00a0not done", Tone.FAULTY);
      case NOT_NEEDED -> Span.faint("\u2013 not needed");
    };
  }

  private void photographs(List<Block> out) {
    out.add(new Block.Heading(1, "Photographs"));
    if (contents.photos().isEmpty()) {
      out.add(Block.Paragraph.of("None were added."));
    }
    photographs(out, Stage.AS_FOUND, "As found");
    photographs(out, Stage.AS_LEFT, "As left");
  }

  private void photographs(List<Block> out, Stage stage, String title) {
    List<Shot> shots = contents.photos().stream().filter(p -> p.row().stage() == stage).toList();
    if (shots.isEmpty()) {
      return;
    }
    out.add(new Block.Heading(2, title));
    List<Block.Photograph> shown = new ArrayList<>();
    List<String> not = new ArrayList<>();
    for (Shot shot : shots) {
      String caption =
          (shot.row().caption().isEmpty() ? "" : Span.own(shot.row().caption()) + ", ")
              + figures.when(shot.row().atUnixMicros());
      shot.picture()
          .ifPresentOrElse(
              p -> shown.add(new Block.Photograph(p, caption)),
              () -> not.add("Not shown: " + caption + ": " + shot.trouble()));
    }
    if (!shown.isEmpty()) {
      out.add(new Block.Photographs(shown));
    }
    not.forEach(words -> out.add(Block.Paragraph.of(words)));
  }
}
