package bellwire.app.job;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;

/**
 * A visit's records in a job file. Every change is committed and synced when its method returns.
 * Used by the thread of the connection that it came from. Texts and pictures are bounded
 * (docs/job-file.md); what is more is refused, and the refusal says what to do.
 */
public final class JobRecords {
  /** A question to the tables. */
  private interface Asked<T> {
    T answer() throws SQLException, JobFileException;
  }

  private final Path path;
  private final RecordTables tables;
  private final RecordLimits limits;
  private final boolean writing;
  private final List<SurveyRow> surveyResults = new ArrayList<>();

  JobRecords(Path path, Statements sql, boolean writing) {
    this.path = path;
    this.writing = writing;
    tables = new RecordTables(sql);
    limits = new RecordLimits(path);
  }

  /** Empty where not told. */
  public String fact(Fact fact) throws JobFileException {
    return read(() -> tables.fact(RecordTables.name(fact)));
  }

  public void fact(Fact fact, String text) throws JobFileException {
    limits.text(text);
    change(() -> tables.putFact(RecordTables.name(fact), text));
  }

  /** In the order in which they were recorded, withdrawn ones too. */
  public List<Act> acts() throws JobFileException {
    return read(tables::acts);
  }

  /** Returns its key. */
  public long add(Act act) throws JobFileException {
    limits.lines(act.what(), act.reading(), act.by());
    return write(() -> tables.addAct(act));
  }

  /** Says that it was recorded by mistake: the row stays. */
  public void withdrawAct(long act) throws JobFileException {
    found("act", act, write(() -> tables.withdrawAct(act)));
  }

  public List<CableRow> cables() throws JobFileException {
    return read(tables::cables);
  }

  /** Adds one of key 0, and changes any other; returns its key. */
  public long put(CableRow cable) throws JobFileException {
    limits.lines(cable.name(), cable.gauge(), cable.nearPlace(), cable.farPlace(), cable.note());
    if (cable.id() == 0) {
      return write(() -> tables.addCable(cable));
    }
    found("cable", cable.id(), write(() -> tables.changeCable(cable)));
    return cable.id();
  }

  /** By port. */
  public List<ConductorRow> conductors(long cable) throws JobFileException {
    return read(() -> tables.conductors(cable));
  }

  /** In the place of what its port had. */
  public void put(ConductorRow conductor) throws JobFileException {
    limits.lines(conductor.nearColour(), conductor.farColour(), conductor.note());
    needCable(conductor.cable());
    change(() -> tables.putConductor(conductor));
  }

  /** Nothing is clamped there. */
  public void removeConductor(long cable, int port) throws JobFileException {
    change(() -> tables.removeConductor(cable, port));
  }

  /** In the order in which they were done. */
  public List<SurveyRow> surveys() throws JobFileException {
    return read(tables::surveys);
  }

  /**
   * The same without their readings. A survey is added and never changed: what was read once is not
   * read again.
   */
  public List<SurveyRow> surveyResults() throws JobFileException {
    long last = surveyResults.isEmpty() ? 0 : surveyResults.get(surveyResults.size() - 1).id();
    surveyResults.addAll(read(() -> tables.surveyResults(last)));
    return List.copyOf(surveyResults);
  }

  /** Returns its key. */
  public long add(SurveyRow survey) throws JobFileException {
    limits.file(survey.json());
    limits.blob(survey.readings());
    needCable(survey.cable());
    return write(() -> tables.addSurvey(survey));
  }

  public List<LandingRow> landings() throws JobFileException {
    return read(tables::landings);
  }

  /** Adds one of key 0, and changes any other; returns its key. */
  public long put(LandingRow landing) throws JobFileException {
    limits.file(landing.text());
    if (landing.cable() != 0) {
      needCable(landing.cable());
    }
    if (landing.id() == 0) {
      return write(() -> tables.addLanding(landing));
    }
    found("landing", landing.id(), write(() -> tables.changeLanding(landing)));
    return landing.id();
  }

  /** In the order in which they were done. */
  public List<RehearsalRow> rehearsals() throws JobFileException {
    return read(tables::rehearsals);
  }

  /** When the last one was done, without reading any; 0 where there is none. */
  public long lastRehearsalUnixMicros() throws JobFileException {
    return read(tables::lastRehearsal);
  }

  /** Returns its key. */
  public long add(RehearsalRow rehearsal) throws JobFileException {
    limits.file(rehearsal.file());
    limits.file(rehearsal.json());
    limits.text(String.join("\n", rehearsal.options()));
    limits.blob(rehearsal.trace());
    return write(() -> tables.addRehearsal(rehearsal));
  }

  /** By their keys; items that nobody touched are not there. */
  public List<Tick> ticks() throws JobFileException {
    return read(tables::ticks);
  }

  /** In the place of what its item had. */
  public void put(Tick tick) throws JobFileException {
    limits.lines(tick.item(), tick.by(), tick.note());
    change(() -> tables.putTick(tick));
  }

  /** Without their pictures, in the order in which they were added. */
  public List<Photo> photos() throws JobFileException {
    return read(tables::photos);
  }

  /**
   * Adds one and returns its key; what its picture is, and how long, is read off the picture.
   *
   * @param picture JPEG or PNG
   */
  public long add(Photo photo, byte[] picture) throws JobFileException {
    limits.lines(photo.caption());
    limits.picture(picture, read(tables::photoCount));
    return write(() -> tables.addPhoto(photo, RecordLimits.mime(picture), picture));
  }

  /** Changes what a photograph is of. */
  public void change(long photo, Stage stage, String caption) throws JobFileException {
    limits.lines(caption);
    found("photo", photo, write(() -> tables.changePhoto(photo, stage, caption)));
  }

  public void removePhoto(long photo) throws JobFileException {
    found("photo", photo, write(() -> tables.removePhoto(photo)));
  }

  public byte[] photoBytes(long photo) throws JobFileException {
    List<byte[]> picture = read(() -> tables.picture(photo));
    found("photo", photo, picture.size());
    return picture.get(0);
  }

  /** How the desk was left: pages, selections, sizes; empty where nothing was. */
  public String left(String key) throws JobFileException {
    return read(() -> tables.left(key));
  }

  public void left(String key, String value) throws JobFileException {
    limits.lines(key);
    limits.text(value);
    change(() -> tables.putLeft(key, value));
  }

  /**
   * SHA-256 of everything in the file but how the desk was left, in hexadecimal, as
   * docs/job-file.md has it. A day's samples take seconds.
   */
  public String digest() throws JobFileException {
    return read(() -> JobDigest.of(tables.sql()));
  }

  /** For tests that fill the disk. */
  Connection connection() {
    return tables.sql().connection();
  }

  private void needCable(long cable) throws JobFileException {
    found("cable", cable, read(() -> tables.hasCable(cable)) ? 1 : 0);
  }

  private static void found(String what, long id, int rows) {
    if (rows == 0) {
      throw new IllegalArgumentException("no such " + what + ": id=" + id);
    }
  }

  private <T> T read(Asked<T> asked) throws JobFileException {
    try {
      return asked.answer();
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /** By one statement, which SQLite commits by itself. */
  private <T> T write(Asked<T> asked) throws JobFileException {
    if (!writing) {
      throw new IllegalStateException("open for reading only: file=" + path);
    }
    return read(asked);
  }

  private interface Change {
    void run() throws SQLException;
  }

  private void change(Change change) throws JobFileException {
    write(
        () -> {
          change.run();
          return true;
        });
  }
}
