package bellwire.app.drawing;

import java.awt.Color;

/** A colour that depends on the palette. */
interface Tone {
  Color of(Palette palette);

  static Tone fixed(Color colour) {
    return palette -> colour;
  }
}
