package bellwire.app.survey;

/** What a survey tells while it runs, for a person to see. */
public interface SurveyListener {

  /** Another part has begun. */
  void phase(String title);

  /**
   * @param share of the present part that is done, 0 to 1
   */
  void progress(double share);

  /** It waits for the person at the far end; told again whenever the far end looks different. */
  void waiting(String forWhat, String seen, long secondsLeft);

  /** Something worth a line of its own. */
  void note(String words);

  /** One that says nothing. */
  static SurveyListener silent() {
    return new SurveyListener() {
      @Override
      public void phase(String title) {}

      @Override
      public void progress(double share) {}

      @Override
      public void waiting(String forWhat, String seen, long secondsLeft) {}

      @Override
      public void note(String words) {}
    };
  }
}
