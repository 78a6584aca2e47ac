package bellwire.app.desk.report;

/** A file that can be made of the report. */
enum SavedKind {
  PDF("Save as PDF…", "report.pdf", "The report as PDF, for paper and mail"),
  HTML("Save for a phone…", "report.html", "The report as one page for a phone or a browser"),
  LABELS("Labels…", "labels.pdf", "Labels for the ends of all conductors, on sheets to be cut"),
  CARD("Panel card…", "panel-card.pdf", "A card for inside the panel: which letter, which colour"),
  DATA(
      "All data…",
      "data",
      "Everything as CSV and JSON, with the photographs, in a folder of its own");

  private final String button;
  private final String proposed;
  private final String words;

  SavedKind(String button, String proposed, String words) {
    this.button = button;
    this.proposed = proposed;
    this.words = words;
  }

  String button() {
    return button;
  }

  /** What its name is made of, behind the job's. */
  String proposed() {
    return proposed;
  }

  String words() {
    return words;
  }

  /** How a file's name ends; empty for a folder. */
  String ending() {
    int dot = proposed.lastIndexOf('.');
    return dot < 0 ? "" : proposed.substring(dot);
  }
}
