package bellwire.app.document.page;

import bellwire.app.document.block.Block;
import bellwire.app.document.block.Block.Photograph;
import bellwire.app.document.block.Span;
import bellwire.app.document.type.TextLine;
import bellwire.app.document.type.Typesetter;
import java.util.ArrayList;
import java.util.List;

/** Drawings and photographs as strips. */
final class FigureStrips {
  private static final double BETWEEN = 14;
  private static final double PHOTO_HEIGHT = 230;

  /** Small pictures are not blown up. */
  private static final double LARGEST_DOT = 1.5;

  private final Typesetter type;
  private final double width;
  private final double most;

  /**
   * @param most height of anything that isn't parted
   */
  FigureStrips(Typesetter type, double width, double most) {
    this.type = type;
    this.width = width;
    this.most = most;
  }

  List<Strip> figure(Block.Figure figure) {
    List<Strip> caption = caption(figure.caption());
    double room = most - caption.stream().mapToDouble(Strip::height).sum();
    double height = figure.drawing().height(width);
    double scale = Math.min(1, room / height);
    List<Strip> out = new ArrayList<>(List.of(Strip.gap(8)));
    out.add(
        Strip.of(
            height * scale,
            List.of(
                new Placed.Drawn(
                    figure.drawing(), (width - width * scale) / 2, 0, width, height, scale)),
            true));
    out.addAll(caption);
    return out;
  }

  private List<Strip> caption(String words) {
    List<Strip> out = new ArrayList<>();
    double leading = TextStrips.SMALL * TextStrips.LEADING;
    List<TextLine> lines = type.lines(List.of(Span.faint(words)), TextStrips.SMALL, width);
    for (int i = 0; i < lines.size(); i++) {
      out.add(
          Strip.of(
              leading,
              List.of(TextStrips.placed(lines.get(i), 0, 0, leading)),
              i < lines.size() - 1));
    }
    return out;
  }

  /** Two beside one another. */
  List<Strip> photographs(Block.Photographs block) {
    List<Strip> out = new ArrayList<>();
    List<Photograph> all = block.photographs();
    for (int i = 0; i < all.size(); i += 2) {
      out.add(Strip.gap(10));
      out.add(pair(all.subList(i, Math.min(all.size(), i + 2))));
    }
    return out;
  }

  private Strip pair(List<Photograph> pair) {
    double each = (width - BETWEEN) / 2;
    double leading = TextStrips.SMALL * TextStrips.LEADING;
    List<Placed> items = new ArrayList<>();
    double deepest = 0;
    for (int i = 0; i < pair.size(); i++) {
      Photograph photo = pair.get(i);
      double scale =
          Math.min(
              LARGEST_DOT,
              Math.min(each / photo.picture().width(), PHOTO_HEIGHT / photo.picture().height()));
      double x = i * (each + BETWEEN);
      double y = photo.picture().height() * scale;
      items.add(new Placed.Photo(photo.picture(), x, 0, photo.picture().width() * scale, y));
      y += 3;
      for (TextLine line :
          type.lines(List.of(Span.faint(photo.caption())), TextStrips.SMALL, each)) {
        if (y + leading > most) {
          break;
        }
        items.add(TextStrips.placed(line, x, y, leading));
        y += leading;
      }
      deepest = Math.max(deepest, y);
    }
    return Strip.of(deepest, items, false);
  }
}
