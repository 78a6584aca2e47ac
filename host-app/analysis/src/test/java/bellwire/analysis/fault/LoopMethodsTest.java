package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.Supposition.Pair;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * The trade's loop methods on the same cables: what the model reads along a bridge and round the
 * loop balances the bridge of the worked examples, and fitted to those readings the model puts the
 * fault where the examples do. Sources: course solutions and Hawkins Electrical Guide, volume 3, in
 * the reference table fault-location.
 */
class LoopMethodsTest {
  private static final int FAULTY = 0;
  private static final int RETURN = 1;
  private static final int METAL = 2;
  private static final double READING_U = 1e-5;

  /** Current into the fault and out at the metal; the far ends joined; no contact resistance. */
  private static final class Loop {
    final GroupModel model;
    final List<Ratio> ratios;
    final double[] point;

    Loop(double faultyOhms, double returnOhms, double place, List<Ratio> ratios) {
      this.ratios = ratios;
      Setting setting =
          new Setting(
              3,
              METAL,
              3.5,
              100,
              1e9,
              Quantity.ohms(faultyOhms, 1e-4 * faultyOhms),
              1e-7,
              0,
              1e-7,
              new double[0],
              1e-6);
      double[] arms = {Double.NaN, returnOhms};
      List<Stage> stages = List.of(new Stage(Stage.Kind.TIE, arms));
      Surroundings surroundings =
          new Surroundings(setting, stages, new double[3][3], List.of(FAULTY), ratios);
      Supposition earthed = Supposition.bridges(List.of(new Pair(FAULTY, METAL)));
      model = new GroupModel(surroundings, ratios, earthed);
      point = model.parameters().start();
      point[model.alongIndex(0)] = place;
      point[model.logOhmsIndex(0)] = Math.log(12);
    }

    double[] readings() {
      return model.at(point, false).values();
    }
  }

  private static Ratio ratio(int a, int b, int p, int q, double ohms) {
    return new Ratio(0, a, b, p, q, new BitSet(), ohms, READING_U);
  }

  /** Copper ahead of the fault, seen against the return conductor, which carries no current. */
  private static Ratio ahead(double ohms) {
    return ratio(FAULTY, METAL, FAULTY, RETURN, ohms);
  }

  private static Ratio loop(double ohms) {
    return ratio(FAULTY, RETURN, FAULTY, RETURN, ohms);
  }

  /** Readings of a cable with the fault there: copper ahead of it, and the whole loop. */
  private static double[] read(double faultyOhms, double returnOhms, double place) {
    return new Loop(faultyOhms, returnOhms, place, List.of(ahead(0), loop(0))).readings();
  }

  /** Where the model puts the fault that gives these readings. */
  private static Quantity placed(double faultyOhms, double returnOhms, double[] readings) {
    List<Ratio> ratios = new ArrayList<>(List.of(ahead(readings[0]), loop(readings[1])));
    GroupModel model = new Loop(faultyOhms, returnOhms, 0.5, ratios).model;
    GroupFit fit = GroupFit.of(model, ratios);
    assertThat(fit).isNotNull();
    return fit.parameter(model.alongIndex(0), "of the run");
  }

  /** P/Q = (loop − X)/X at balance, X ahead of the fault. */
  @Test
  void murrayBalancesAtTheWorkedRatios() {
    List<Row> rows = ReferenceTables.load("fault-location/murray").rows();
    assertThat(rows).hasSize(3);
    for (Row row : rows) {
      double metres = row.number("lengthMetres");
      double faulty = metres / 1000 * row.number("faultyOhmsPerKm");
      double back = metres / 1000 * row.number("returnOhmsPerKm");
      String cell = row.has("resultMetresComputed") ? "resultMetresComputed" : "resultMetres";
      double[] read = read(faulty, back, row.number(cell) / metres);
      double ratio = row.number("p") / row.number("q");
      assertThat((read[1] - read[0]) / read[0]).as(row.cells() + "").isCloseTo(ratio, within(2e-5));
      // The other way: the readings that balance at P:Q, and the place from the fit.
      double[] balanced = {read[1] / (1 + ratio), read[1]};
      Quantity place = placed(faulty, back, balanced);
      assertThat(place.value() * metres)
          .as(row.cells() + " " + place)
          .isCloseTo(row.number(cell), within(0.51 * row.lastPlace(cell) + 2 * place.u() * metres));
      assertThat(place.u() * metres).isLessThan(1e-3 * metres);
    }
  }

  /** Equal arms: S = (loop − X) − X; the bridge's other end at the fault, S beside the near end. */
  @Test
  void varleyBalancesAtTheWorkedResistance() {
    Row row = ReferenceTables.load("fault-location/varley").only();
    double ohms = row.number("lengthKm") * row.number("ohmsPerKm");
    double[] read = read(ohms, ohms, row.number("faultKm") / row.number("lengthKm"));
    assertThat(read[1] - 2 * read[0]).isCloseTo(row.number("balanceOhms"), within(1e-4));
    double[] balanced = {(read[1] - row.number("balanceOhms")) / 2, read[1]};
    Quantity place = placed(ohms, ohms, balanced);
    assertThat(place.value() * row.number("lengthKm"))
        .isCloseTo(row.number("faultKm"), within(1e-3));
  }

  /** d = A r/(1000 M): the bridge's scale reads A thousandths of the loop r as the part ahead. */
  @Test
  void handbookReadsTheSameMiles() {
    Row row = ReferenceTables.load("fault-location/murray-handbook").only();
    double loop = row.number("ohms");
    double ahead = row.number("a") / 1000 * loop;
    Quantity place = placed(loop / 2, loop / 2, new double[] {ahead, loop});
    double miles = place.value() * loop / 2 / row.number("ohmsPerMile");
    assertThat(miles).isCloseTo(row.number("resultMilesComputed"), within(1e-3));
    assertThat(miles)
        .isCloseTo(row.number("resultMiles"), within(0.51 * row.lastPlace("resultMiles")));
  }
}
