package bellwire.link;

import bellwire.link.LinkFormatException.Problem;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Takes a message's fields in order; fields behind the last one taken are a later protocol's. */
final class Fields {
  private final String of;
  private final List<CborItem> items;
  private int at;

  private Fields(String of, List<CborItem> items) {
    this.of = of;
    this.items = items;
  }

  static Fields of(String name, CborItem item) throws LinkFormatException {
    if (item instanceof CborItem.Array array) {
      return new Fields(name, array.items());
    }
    throw new LinkFormatException(Problem.SHAPE, "not an array: message=" + name);
  }

  int size() {
    return items.size();
  }

  CborItem item(String name) throws LinkFormatException {
    if (at == items.size()) {
      throw new LinkFormatException(
          Problem.SHAPE, "a field is missing: message=" + of + " field=" + name);
    }
    return items.get(at++);
  }

  Fields nested(String name) throws LinkFormatException {
    return of(of + "." + name, item(name));
  }

  long whole(String name, long least, long greatest) throws LinkFormatException {
    if (!(item(name) instanceof CborItem.Whole whole)) {
      throw shape(name, "a whole number");
    }
    if (whole.value() < least || whole.value() > greatest) {
      throw new LinkFormatException(
          Problem.RANGE,
          "out of range: message=" + of + " field=" + name + " value=" + whole.value());
    }
    return whole.value();
  }

  /** A number from 0 up, of 63 bits. */
  long count(String name) throws LinkFormatException {
    return whole(name, 0, Long.MAX_VALUE);
  }

  int small(String name, int least, int greatest) throws LinkFormatException {
    return (int) whole(name, least, greatest);
  }

  boolean flag(String name) throws LinkFormatException {
    if (item(name) instanceof CborItem.Flag flag) {
      return flag.value();
    }
    throw shape(name, "true or false");
  }

  String text(String name) throws LinkFormatException {
    if (!(item(name) instanceof CborItem.Text text)) {
      throw shape(name, "text");
    }
    if (text.value().length() > MessageCodec.MAX_TEXT) {
      throw new LinkFormatException(
          Problem.RANGE,
          "text too long: message=" + of + " field=" + name + " length=" + text.value().length());
    }
    // A parser may let a lone surrogate through, which could not be sent on.
    return new String(text.value().getBytes(StandardCharsets.UTF_8), StandardCharsets.UTF_8);
  }

  <E extends Enum<E>> E constant(String name, E[] values) throws LinkFormatException {
    return values[small(name, 0, values.length - 1)];
  }

  long[] array(String name, TypedArray kind) throws LinkFormatException {
    return kind.unpack(of + "." + name, item(name), MessageCodec.MAX_SAMPLES);
  }

  private LinkFormatException shape(String name, String expected) {
    return new LinkFormatException(
        Problem.SHAPE, "not " + expected + ": message=" + of + " field=" + name);
  }
}
