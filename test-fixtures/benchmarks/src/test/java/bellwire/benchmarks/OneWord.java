package bellwire.benchmarks;

/** The least that a Java program can be. */
final class OneWord {
  private OneWord() {}

  public static void main(String[] arguments) {
    System.out.println("bellwire");
  }
}
