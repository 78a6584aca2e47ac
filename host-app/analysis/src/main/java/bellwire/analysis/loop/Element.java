package bellwire.analysis.loop;

/** Something between two points of the equipment. Names are unique within an equipment. */
public sealed interface Element permits Transformer, Fuse, Load, Switch, Contact, Wire {
  String name();

  Point a();

  Point b();
}
