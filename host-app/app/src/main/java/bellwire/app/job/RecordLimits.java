package bellwire.app.job;

import bellwire.app.job.JobFileException.Trouble;
import java.nio.file.Path;

/** What a visit's records may be at most; what is more is refused with the remedy. */
final class RecordLimits {
  static final int LINE_CHARACTERS = 1000;
  static final int TEXT_CHARACTERS = 10_000;
  static final int FILE_CHARACTERS = 4_000_000;
  static final int BLOB_BYTES = 64_000_000;
  static final int PICTURE_BYTES = 20_000_000;
  static final int PICTURES = 200;

  private final Path path;

  RecordLimits(Path path) {
    this.path = path;
  }

  /** Names, places, colours, captions. */
  void lines(String... texts) throws JobFileException {
    for (String text : texts) {
      characters(text, LINE_CHARACTERS);
    }
  }

  /** What a person writes at length. */
  void text(String text) throws JobFileException {
    characters(text, TEXT_CHARACTERS);
  }

  /** What the program writes. */
  void file(String text) throws JobFileException {
    characters(text, FILE_CHARACTERS);
  }

  private void characters(String text, int most) throws JobFileException {
    if (text.length() > most) {
      throw refused(
          "not kept: the text has %,d characters, and %,d are the most; shorten it"
              .formatted(text.length(), most));
    }
  }

  void blob(byte[] bytes) throws JobFileException {
    if (bytes.length > BLOB_BYTES) {
      throw refused(
          "not kept: the recording has %s MB, and %s MB are the most; measure in shorter parts"
              .formatted(megabytes(bytes.length), megabytes(BLOB_BYTES)));
    }
  }

  /** As many as there are, and one more. */
  void picture(byte[] picture, long others) throws JobFileException {
    if (mime(picture).isEmpty()) {
      throw refused(
          "photograph not added: it is neither JPEG nor PNG; save it as one of these, and add that");
    }
    if (picture.length > PICTURE_BYTES) {
      throw refused(
          ("photograph not added: it has %s MB, and %s MB are the most; save it smaller, half the"
                  + " width will do, and add that")
              .formatted(megabytes(picture.length), megabytes(PICTURE_BYTES)));
    }
    if (others >= PICTURES) {
      throw refused(
          "photograph not added: the job has %d, and more have no room; remove one first"
              .formatted(others));
    }
  }

  /** By how it begins: JPEG (ITU-T T.81, B.1.1.3: SOI, then a marker), PNG (W3C PNG, 5.2). */
  static String mime(byte[] picture) {
    if (begins(picture, 0xFF, 0xD8, 0xFF)) {
      return "image/jpeg";
    }
    return begins(picture, 0x89, 'P', 'N', 'G', 0x0D, 0x0A, 0x1A, 0x0A) ? "image/png" : "";
  }

  private static boolean begins(byte[] bytes, int... first) {
    boolean same = bytes.length >= first.length;
    for (int i = 0; same && i < first.length; i++) {
      same = (bytes[i] & 0xFF) == first[i];
    }
    return same;
  }

  private static String megabytes(int bytes) {
    return "%.1f".formatted(bytes / 1e6).replaceFirst("[.,]0$", "");
  }

  private JobFileException refused(String words) {
    return new JobFileException(path, Trouble.REFUSED, words);
  }
}
