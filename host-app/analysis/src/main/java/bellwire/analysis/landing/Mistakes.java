package bellwire.analysis.landing;

import bellwire.analysis.loop.Installation;
import java.util.List;

/** All mistakes an installation allows. */
public final class Mistakes {
  private Mistakes() {}

  /** Every single mistake, in a fixed order, none twice. */
  public static List<Mistake> single(Installation intended) {
    throw new UnsupportedOperationException("conductors=" + intended.plan().landed().size());
  }
}
