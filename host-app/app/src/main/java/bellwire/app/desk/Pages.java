package bellwire.app.desk;

import bellwire.app.desk.finish.FinishPage;
import bellwire.app.desk.landing.LandingPage;
import bellwire.app.desk.rehearsal.RehearsalPage;
import bellwire.app.desk.report.ReportPage;
import bellwire.app.desk.survey.SurveyPage;
import bellwire.app.desk.vigil.VigilPage;
import java.util.List;

/** The stops of a visit, in the order in which it is worked. */
final class Pages {
  private Pages() {}

  /** While no job is open. */
  static List<Page> withoutJob(DeskWindow window) {
    return List.of(new WelcomePage(window));
  }

  static List<Page> of(DeskContext ctx) {
    return List.of(
        new VisitPage(ctx),
        new SafePage(ctx),
        new SurveyPage(ctx),
        new LandingPage(ctx),
        new RehearsalPage(ctx),
        new VigilPage(ctx),
        new FinishPage(ctx),
        new ReportPage(ctx));
  }
}
