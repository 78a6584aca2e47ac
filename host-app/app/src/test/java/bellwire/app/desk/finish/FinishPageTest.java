package bellwire.app.desk.finish;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.desk.DeskRig;
import bellwire.app.job.Checklist;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFile;
import bellwire.app.job.Photo;
import bellwire.app.job.Stage;
import bellwire.app.job.Tick;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.datatransfer.DataFlavor;
import java.awt.datatransfer.Transferable;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.swing.JList;
import javax.swing.JTextField;
import javax.swing.TransferHandler;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The checklist and the photographs, in a real window. */
@Tag("window")
class FinishPageTest {
  @TempDir Path directory;

  private Path job() throws Exception {
    Path file = directory.resolve("visit.bellwire");
    try (JobFile job = JobFile.open(file)) {
      job.records().fact(Fact.TECHNICIAN, "Ada");
    }
    return file;
  }

  /** A wall with a square on it, as a camera would save it. */
  static Path picture(Path directory, String name, int width, int height) throws Exception {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setColor(new Color(205, 200, 190));
    g.fillRect(0, 0, width, height);
    g.setColor(new Color(80, 90, 110));
    g.fillRect(width / 3, height / 3, width / 3, height / 3);
    g.dispose();
    Path file = directory.resolve(name);
    ImageIO.write(image, name.substring(name.indexOf('.') + 1), file.toFile());
    return file;
  }

  private static List<Tick> ticks(DeskRig rig) throws Exception {
    return rig.visit().ask(all -> all.ticks()).get();
  }

  private static List<Photo> photos(DeskRig rig) throws Exception {
    return rig.visit().ask(all -> all.photos()).get();
  }

  @Test
  void theChecklistIsWorkedByKeyboardAlone() throws Exception {
    try (DeskRig rig = DeskRig.job(job())) {
      rig.page("finish");
      assertThat(rig.state("finish")).isEqualTo("not begun");
      // F5 leads to the item; that it is done, only its own key says.
      assertThat(rig.next()).startsWith("Look: Cable anchored");
      rig.press("F5");
      rig.press("F5");
      assertThat(ticks(rig)).isEmpty();
      rig.press("D");
      rig.press("D");
      rig.press("X");
      rig.press("N");
      rig.until("four items", 10, () -> rig.state("finish").equals("4 of 14"));
      List<Tick> ticks = ticks(rig);
      assertThat(ticks).extracting(Tick::by).containsOnly("Ada");
      assertThat(ticks)
          .extracting(t -> t.item() + " " + t.state())
          .containsExactlyInAnyOrder(
              "anchored DONE",
              "strip-length DONE",
              "no-bare-copper NOT_DONE",
              "tug-far NOT_NEEDED");
      rig.press("ctrl Z");
      rig.until("taken back", 10, () -> rig.state("finish").equals("3 of 14"));
      rig.press("ctrl shift Z");
      rig.until("done again", 10, () -> rig.state("finish").equals("4 of 14"));
      for (int i = 4; i < Checklist.items().size(); i++) {
        rig.press("F5");
        rig.press("D");
      }
      rig.until("all", 20, () -> rig.state("finish").equals("1 not done"));
      assertThat(rig.next()).contains("Photograph");
      rig.shot("finish");
    }
  }

  @Test
  void howItIsKnownAndByWhomIsKept() throws Exception {
    try (DeskRig rig = DeskRig.job(job())) {
      rig.page("finish");
      rig.click("finish.done");
      rig.click("finish.measured");
      rig.type("finish.by", "Grace");
      rig.type("finish.note", "spirit level");
      rig.page("visit");
      Tick tick = ticks(rig).get(0);
      assertThat(tick.basis()).isEqualTo(Tick.Basis.MEASURED);
      assertThat(tick.by()).isEqualTo("Grace");
      assertThat(tick.note()).isEqualTo("spirit level");
    }
  }

  @Test
  void photographsAreAddedByNameAndByDroppingThem() throws Exception {
    Path found = picture(directory, "found.jpg", 4000, 3000);
    Path left = picture(directory, "left.png", 300, 900);
    Path text = Files.writeString(directory.resolve("notes.jpg"), "no picture");
    try (DeskRig rig = DeskRig.job(job())) {
      rig.page("finish");
      rig.press("alt P");
      rig.click("finish.add-as-found");
      rig.type("files.name", found.toString());
      rig.press("ENTER");
      rig.until("it is in the job", 20, () -> stages(rig).equals(List.of(Stage.AS_FOUND)));
      JTextField caption = rig.find("finish.caption", JTextField.class);
      rig.until("the caption is asked for", 20, caption::isFocusOwner);
      rig.type("finish.caption", "the old control, 客厅");
      rig.press("ENTER");
      drop(rig, "finish.photos-as-left", left, text);
      rig.until("the refusal", 20, () -> rig.notices().contains("JPEG nor PNG"));
      assertThat(photos(rig))
          .extracting(p -> p.stage() + " " + p.caption() + " " + p.mime())
          .containsExactlyInAnyOrder(
              "AS_FOUND the old control, 客厅 image/jpeg", "AS_LEFT  image/png");
      assertThat(rig.visit().ask(all -> all.photoBytes(1)).get())
          .isEqualTo(Files.readAllBytes(found));
      rig.shot("finish-photographs");
      rig.click("finish.move");
      rig.until(
          "moved",
          10,
          () ->
              stages(rig).equals(List.of(Stage.AS_LEFT, Stage.AS_LEFT))
                  || stages(rig).equals(List.of(Stage.AS_FOUND, Stage.AS_FOUND)));
      rig.press("ctrl Z");
      rig.until(
          "moved back",
          10,
          () -> stages(rig).contains(Stage.AS_FOUND) && stages(rig).contains(Stage.AS_LEFT));
      removedAndPutBack(rig);
    }
  }

  private static void removedAndPutBack(DeskRig rig) throws Exception {
    JList<?> list = rig.find("finish.photos-as-left", JList.class);
    rig.robot().focusAndWaitForFocusGain(list);
    rig.press("DOWN");
    rig.press("DELETE");
    rig.until("removed", 10, () -> stages(rig).size() == 1);
    rig.press("ctrl Z");
    rig.until("put back", 10, () -> stages(rig).size() == 2);
  }

  private static List<Stage> stages(DeskRig rig) {
    try {
      return photos(rig).stream().map(Photo::stage).toList();
    } catch (Exception e) {
      throw new AssertionError(e);
    }
  }

  private static void drop(DeskRig rig, String on, Path... files) {
    JList<?> list = rig.find(on, JList.class);
    Transferable dragged =
        new Transferable() {
          @Override
          public DataFlavor[] getTransferDataFlavors() {
            return new DataFlavor[] {DataFlavor.javaFileListFlavor};
          }

          @Override
          public boolean isDataFlavorSupported(DataFlavor flavor) {
            return flavor.equals(DataFlavor.javaFileListFlavor);
          }

          @Override
          public Object getTransferData(DataFlavor flavor) {
            return java.util.Arrays.stream(files).map(Path::toFile).toList();
          }
        };
    boolean taken =
        rig.get(
            () ->
                list.getTransferHandler()
                    .importData(new TransferHandler.TransferSupport(list, dragged)));
    assertThat(taken).isTrue();
  }

  @Test
  void whatIsNoPictureIsNoThumbnail() throws Exception {
    ByteArrayOutputStream png = new ByteArrayOutputStream();
    ImageIO.write(new BufferedImage(900, 300, BufferedImage.TYPE_INT_ARGB), "png", png);
    Optional<BufferedImage> small = Thumbnails.made(png.toByteArray());
    assertThat(small).isPresent();
    assertThat(small.get().getWidth()).isEqualTo(360);
    assertThat(small.get().getHeight()).isEqualTo(120);
    byte[] cut = java.util.Arrays.copyOf(png.toByteArray(), 40);
    assertThat(Thumbnails.made(cut)).isEmpty();
    assertThat(Thumbnails.made(new byte[0])).isEmpty();
  }
}
