package bellwire.app.document.page;

import bellwire.app.document.type.Faces;
import bellwire.app.drawing.Palette;
import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2D;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.GregorianCalendar;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDMetadata;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import org.apache.pdfbox.pdmodel.graphics.image.JPEGFactory;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.destination.PDPageXYZDestination;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDDocumentOutline;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.apache.pdfbox.pdmodel.interactive.viewerpreferences.PDViewerPreferences;
import org.apache.pdfbox.util.Matrix;

/** Writes pages as PDF: the same pages make the same bytes. */
public final class PdfBook {
  /**
   * @param language of the document, an RFC 5646 tag
   * @param madeAt creation date
   */
  public record About(
      String title, String subject, String maker, String language, Instant madeAt) {}

  private PdfBook() {}

  public static byte[] write(List<Sheet> sheets, Faces faces, About about) throws IOException {
    try (PDDocument document = new PDDocument()) {
      PdfFonts fonts = new PdfFonts(document, faces);
      List<PDPage> pages = new ArrayList<>();
      for (Sheet sheet : sheets) {
        PDPage page = new PDPage(new PDRectangle((float) sheet.width(), (float) sheet.height()));
        document.addPage(page);
        pages.add(page);
        try (PDPageContentStream out = new PDPageContentStream(document, page)) {
          new Painter(document, fonts, out, sheet.height()).paint(sheet);
        }
      }
      bookmarks(document, sheets, pages);
      describe(document, about);
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      document.save(bytes);
      return bytes.toByteArray();
    }
  }

  private static void describe(PDDocument document, About about) throws IOException {
    document.setVersion(1.7f);
    // The file's identity follows from what it says, not from when it was written.
    document.setDocumentId(about.madeAt().toEpochMilli());
    GregorianCalendar made = new GregorianCalendar(TimeZone.getTimeZone("UTC"), Locale.ROOT);
    made.setTimeInMillis(about.madeAt().toEpochMilli());
    PDDocumentInformation info = document.getDocumentInformation();
    info.setTitle(about.title());
    info.setSubject(about.subject());
    info.setCreator(about.maker());
    info.setProducer(about.maker());
    info.setCreationDate(made);
    info.setModificationDate(made);
    document.getDocumentCatalog().setLanguage(about.language());
    PDViewerPreferences preferences =
        new PDViewerPreferences(document.getDocumentCatalog().getCOSObject());
    preferences.setDisplayDocTitle(true);
    document.getDocumentCatalog().setViewerPreferences(preferences);
    PDMetadata xmp = new PDMetadata(document);
    xmp.importXMPMetadata(xmp(about).getBytes(StandardCharsets.UTF_8));
    document.getDocumentCatalog().setMetadata(xmp);
  }

  private static String xmp(About about) {
    return "<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
        + "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">"
        + "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">"
        + "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\""
        + " xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">"
        + "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">"
        + escaped(about.title())
        + "</rdf:li></rdf:Alt></dc:title>"
        + "<dc:language><rdf:Bag><rdf:li>"
        + escaped(about.language())
        + "</rdf:li></rdf:Bag></dc:language>"
        + "<xmp:CreatorTool>"
        + escaped(about.maker())
        + "</xmp:CreatorTool><xmp:CreateDate>"
        + about.madeAt()
        + "</xmp:CreateDate></rdf:Description></rdf:RDF></x:xmpmeta>\n"
        + "<?xpacket end=\"r\"?>";
  }

  private static String escaped(String text) {
    return text.replaceAll("[\\p{Cntrl}\\p{Cs}\ufffe\uffff]", " ")
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;");
  }

  private static void bookmarks(PDDocument document, List<Sheet> sheets, List<PDPage> pages) {
    PDDocumentOutline outline = new PDDocumentOutline();
    PDOutlineItem section = null;
    for (int i = 0; i < sheets.size(); i++) {
      for (Placed placed : sheets.get(i).placed()) {
        if (!(placed instanceof Placed.Bookmark mark) || mark.level() > 2) {
          continue;
        }
        PDPageXYZDestination to = new PDPageXYZDestination();
        to.setPage(pages.get(i));
        to.setTop((int) Math.ceil(sheets.get(i).height() - mark.y()) + 4);
        PDOutlineItem item = new PDOutlineItem();
        item.setTitle(mark.title());
        item.setDestination(to);
        if (mark.level() == 1 || section == null) {
          outline.addLast(item);
          section = item;
        } else {
          section.addLast(item);
        }
      }
    }
    outline.openNode();
    document.getDocumentCatalog().setDocumentOutline(outline);
  }

  /** Puts one page's things on it. */
  private static final class Painter {
    private final PDDocument document;
    private final PdfFonts fonts;
    private final PDPageContentStream out;
    private final double height;
    private final PdfText text;

    Painter(PDDocument document, PdfFonts fonts, PDPageContentStream out, double height) {
      this.document = document;
      this.fonts = fonts;
      this.out = out;
      this.height = height;
      text = new PdfText(out, fonts);
    }

    void paint(Sheet sheet) throws IOException {
      for (Placed placed : sheet.placed()) {
        if (placed instanceof Placed.Text t) {
          text.draw(t.line(), t.x(), height - t.baseline());
        } else if (placed instanceof Placed.Fill f) {
          text.rule(f.color(), f.x(), height - f.y() - f.height(), f.width(), f.height());
        } else if (placed instanceof Placed.Drawn d) {
          drawing(d);
        } else if (placed instanceof Placed.Photo p) {
          out.drawImage(
              JPEGFactory.createFromByteArray(document, p.picture().jpeg()),
              (float) p.x(),
              (float) (height - p.y() - p.height()),
              (float) p.width(),
              (float) p.height());
        }
      }
    }

    private void drawing(Placed.Drawn d) throws IOException {
      PdfBoxGraphics2D g = new PdfBoxGraphics2D(document, (float) d.width(), (float) d.height());
      g.setFontTextDrawer(new DrawnText(fonts));
      try {
        d.drawing().paint(g, d.width(), Palette.PRINT);
      } finally {
        g.dispose();
      }
      PDFormXObject form = g.getXFormObject();
      form.getCOSObject().setItem(COSName.TYPE, COSName.XOBJECT);
      float scale = (float) d.scale();
      out.saveGraphicsState();
      out.transform(
          new Matrix(
              scale, 0, 0, scale, (float) d.x(), (float) (height - d.y() - d.height() * scale)));
      out.drawForm(form);
      out.restoreGraphicsState();
    }
  }
}
