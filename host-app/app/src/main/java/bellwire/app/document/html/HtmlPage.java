package bellwire.app.document.html;

import bellwire.app.document.block.Block;
import bellwire.app.document.block.Span;
import bellwire.app.document.block.Span.Tone;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;

/** Writes blocks as HTML, to be read on a phone and to be printed. */
public final class HtmlPage {
  private final StringBuilder out = new StringBuilder();
  private int sections;
  private int figures;

  private HtmlPage() {}

  /**
   * @param title of the document
   * @param foot the last line
   */
  public static String write(List<Block> blocks, String title, String foot) throws IOException {
    HtmlPage page = new HtmlPage();
    page.out
        .append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
        .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
        .append("<meta name=\"color-scheme\" content=\"light dark\">\n<title>")
        .append(escaped(title))
        .append("</title>\n<style>\n")
        .append(style())
        .append("</style>\n</head>\n<body>\n<main>\n");
    page.contents(blocks);
    for (Block block : blocks) {
      page.block(block);
    }
    page.out
        .append("</main>\n<footer>")
        .append(escaped(foot))
        .append("</footer>\n</body>\n</html>\n");
    return page.out.toString();
  }

  private static String style() throws IOException {
    try (InputStream in = HtmlPage.class.getResourceAsStream("report.css")) {
      if (in == null) {
        throw new IOException("not in the program: report.css");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private void contents(List<Block> blocks) {
    List<String> titles = new ArrayList<>();
    for (Block block : blocks) {
      if (block instanceof Block.Heading heading && heading.level() == 1) {
        titles.add(heading.text());
      }
    }
    out.append("<nav aria-label=\"Parts of this report\"><details><summary>Parts of this report")
        .append("</summary><ol>\n");
    for (int i = 0; i < titles.size(); i++) {
      out.append("<li><a href=\"#s").append(i + 1).append("\">");
      out.append(escaped(titles.get(i))).append("</a></li>\n");
    }
    out.append("</ol></details></nav>\n");
  }

  private void block(Block block) throws IOException {
    if (block instanceof Block.Heading heading) {
      heading(heading);
    } else if (block instanceof Block.Paragraph paragraph) {
      out.append("<p class=\"")
          .append(paragraph.size().name().toLowerCase(Locale.ROOT))
          .append("\" dir=\"auto\">");
      spans(paragraph.spans());
      out.append("</p>\n");
    } else if (block instanceof Block.Cautions cautions) {
      cautions(cautions);
    } else if (block instanceof Block.Statements statements) {
      statements(statements);
    } else if (block instanceof Block.Facts facts) {
      facts(facts);
    } else if (block instanceof Block.Table table) {
      table(table);
    } else if (block instanceof Block.Figure figure) {
      // To be pushed sideways on a narrow screen, where its letters would be too small.
      out.append("<figure><div class=\"drawn\" tabindex=\"0\">");
      out.append(SvgDrawing.of(figure.drawing(), "f" + ++figures));
      out.append("</div><figcaption dir=\"auto\">");
      out.append(escaped(figure.caption())).append("</figcaption></figure>\n");
    } else if (block instanceof Block.Photographs photographs) {
      photographs(photographs);
    }
  }

  private void heading(Block.Heading heading) {
    String tag = "h" + Math.min(4, heading.level() + 1);
    out.append('<').append(tag);
    if (heading.level() == 1) {
      out.append(" id=\"s").append(++sections).append('"');
    }
    out.append(" dir=\"auto\">").append(escaped(heading.text()));
    out.append("</").append(tag).append(">\n");
  }

  private void cautions(Block.Cautions cautions) {
    out.append("<section class=\"cautions\" role=\"note\"><p class=\"title\">");
    out.append(escaped(cautions.title())).append("</p><ul>\n");
    for (String line : cautions.lines()) {
      out.append("<li>").append(escaped(line)).append("</li>\n");
    }
    out.append("</ul></section>\n");
  }

  private void statements(Block.Statements statements) {
    out.append("<ul class=\"statements\">\n");
    for (Block.Statement line : statements.lines()) {
      out.append("<li><span class=\"mark\">");
      out.append(line.mark().shape()).append(' ').append(line.mark().word());
      out.append("</span> <span dir=\"auto\">");
      spans(line.spans());
      out.append("</span></li>\n");
    }
    out.append("</ul>\n");
  }

  private void facts(Block.Facts facts) {
    out.append("<dl>\n");
    for (Block.Fact fact : facts.facts()) {
      out.append("<dt>").append(escaped(fact.name())).append("</dt><dd dir=\"auto\">");
      spans(fact.spans());
      out.append("</dd>\n");
    }
    out.append("</dl>\n");
  }

  /** On a narrow screen a row's cells stand below one another, each with its column's name. */
  private void table(Block.Table table) {
    out.append("<table>\n<thead><tr>");
    table.head().forEach(h -> out.append("<th scope=\"col\">").append(escaped(h)).append("</th>"));
    out.append("</tr></thead>\n<tbody>\n");
    for (List<List<Span>> row : table.rows()) {
      out.append("<tr>");
      for (int c = 0; c < row.size(); c++) {
        out.append("<td data-column=\"").append(escaped(table.head().get(c)));
        out.append("\" dir=\"auto\">");
        spans(row.get(c));
        out.append("</td>");
      }
      out.append("</tr>\n");
    }
    out.append("</tbody>\n</table>\n");
  }

  private void photographs(Block.Photographs photographs) {
    out.append("<div class=\"photographs\">\n");
    for (Block.Photograph each : photographs.photographs()) {
      out.append("<figure><img alt=\"").append(escaped(each.caption()));
      out.append("\" width=\"").append(each.picture().width());
      out.append("\" height=\"").append(each.picture().height());
      out.append("\" src=\"data:image/jpeg;base64,");
      out.append(Base64.getEncoder().encodeToString(each.picture().jpeg()));
      out.append("\"><figcaption dir=\"auto\">").append(escaped(each.caption()));
      out.append("</figcaption></figure>\n");
    }
    out.append("</div>\n");
  }

  private void spans(List<Span> spans) {
    for (Span span : spans) {
      String open = span.struck() ? "<s>" : span.bold() ? "<b>" : "";
      String close = span.struck() ? "</s>" : span.bold() ? "</b>" : "";
      boolean toned = span.tone() != Tone.INK;
      if (toned) {
        out.append("<span class=\"").append(span.tone().name().toLowerCase(Locale.ROOT));
        out.append("\">");
      }
      out.append(open).append(escaped(span.text()).replace("\n", "<br>")).append(close);
      if (toned) {
        out.append("</span>");
      }
    }
  }

  static String escaped(String text) {
    return text.replaceAll("[\\p{Cntrl}&&[^\n\t]]|[\\p{Cs}\ufffe\uffff]", "\ufffd")
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
