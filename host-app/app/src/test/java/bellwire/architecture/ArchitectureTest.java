package bellwire.architecture;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.library.dependencies.SlicesRuleDefinition;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * Who may know whom (docs/decisions/0001-modules.md). Rules over packages that do not exist yet
 * hold emptily.
 */
@AnalyzeClasses(packages = "bellwire", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

  private static final String[] LINK = {"bellwire.link..", "bellwire.board..", "bellwire.yaml.."};
  private static final String AGENT = "bellwire.agent..";
  private static final String SIMBENCH = "bellwire.simbench..";
  private static final String ANALYSIS = "bellwire.analysis..";
  private static final String APP = "bellwire.app..";

  /** The only packages whose threads wait for real time to pass. */
  private static final String[] SLEEPING = {"bellwire.agent.runtime..", "bellwire.app.runtime.."};

  /** Programs beside the command line: they tell their state on the console. */
  private static final List<String> ENTRIES =
      List.of(
          "bellwire.agent.AgentMain",
          "bellwire.simbench.serve.BenchOverSerial",
          "bellwire.simbench.serve.BenchOverDevices",
          "bellwire.simbench.serve.TickOnBench");

  private static DescribedPredicate<JavaClass> isOneOf(List<String> names) {
    return DescribedPredicate.describe(
        "are one of " + names, type -> names.contains(type.getFullName()));
  }

  private static DescribedPredicate<JavaClass> oursOutside(String... packages) {
    return resideInAPackage("bellwire..")
        .and(DescribedPredicate.not(resideInAnyPackage(packages)))
        .as("classes of ours outside %s", String.join(", ", packages));
  }

  private static DescribedPredicate<JavaClass> oursOutside(String[] packages, String... more) {
    String[] all = java.util.Arrays.copyOf(packages, packages.length + more.length);
    System.arraycopy(more, 0, all, packages.length, more.length);
    return oursOutside(all);
  }

  // One-way dependencies.

  @ArchTest
  static final ArchRule linkDependsOnNothingOfOurs =
      noClasses()
          .that()
          .resideInAnyPackage(LINK)
          .should()
          .dependOnClassesThat(oursOutside(LINK))
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule agentDependsOnLinkAlone =
      noClasses()
          .that()
          .resideInAPackage(AGENT)
          .should()
          .dependOnClassesThat(oursOutside(LINK, AGENT))
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule simbenchDependsOnAgentAndLinkAlone =
      noClasses()
          .that()
          .resideInAPackage(SIMBENCH)
          .should()
          .dependOnClassesThat(oursOutside(LINK, AGENT, SIMBENCH))
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule analysisDependsOnNothingOfOurs =
      noClasses()
          .that()
          .resideInAPackage(ANALYSIS)
          .should()
          .dependOnClassesThat(oursOutside(ANALYSIS))
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule appKnowsTheSimulatedBenchInOnePackageAndTheAgentNowhere =
      noClasses()
          .that()
          .resideInAPackage(APP)
          .and()
          .resideOutsideOfPackage("bellwire.app.bench..")
          .should()
          .dependOnClassesThat(oursOutside(LINK, ANALYSIS, APP))
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule appsBenchPackageReachesTheAgentOnlyThroughSimbench =
      noClasses()
          .that()
          .resideInAPackage("bellwire.app.bench..")
          .should()
          .dependOnClassesThat(oursOutside(LINK, ANALYSIS, APP, SIMBENCH))
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule packagesFormNoCycles =
      SlicesRuleDefinition.slices()
          .matching("bellwire.(*)..")
          .should()
          .beFreeOfCycles()
          .allowEmptyShould(true);

  // Analysis computes: no I/O, no clock, no screen.

  @ArchTest
  static final ArchRule analysisTouchesNoFilesAndNoScreen =
      noClasses()
          .that()
          .resideInAPackage(ANALYSIS)
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "java.nio.file..",
              "java.nio.channels..",
              "java.net..",
              "javax.swing..",
              "java.awt..",
              "java.sql..")
          .orShould()
          .dependOnClassesThat()
          .haveNameMatching("java\\.io\\.(File|RandomAccessFile|InputStream|OutputStream|Print).*")
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule analysisReadsNoClock =
      noClasses()
          .that()
          .resideInAPackage(ANALYSIS)
          .should()
          .callMethod(System.class, "currentTimeMillis")
          .orShould()
          .callMethod(System.class, "nanoTime")
          .orShould()
          .callMethod(java.time.Instant.class, "now")
          .orShould()
          .dependOnClassesThat()
          .areAssignableTo(java.time.Clock.class)
          .allowEmptyShould(true);

  // Each outside library in its own place.

  @ArchTest
  static final ArchRule pi4jIsConfined =
      confined(
          "com.pi4j..", "bellwire.agent.chip..", "bellwire.agent.pi..", "bellwire.simbench.pi4j..");

  @ArchTest
  static final ArchRule serialPortsAreConfined =
      confined("com.fazecast..", "bellwire.agent.serial..", "bellwire.app.serial..");

  @ArchTest
  static final ArchRule swingIsConfined = confined("javax.swing..", "bellwire.app.desk..");

  @ArchTest static final ArchRule sqlIsConfined = confined("java.sql..", "bellwire.app.job..");

  @ArchTest
  static final ArchRule windowLibrariesAreConfined =
      confined("com.formdev..", "bellwire.app.desk..");

  @ArchTest
  static final ArchRule layoutIsConfined = confined("net.miginfocom..", "bellwire.app.desk..");

  @ArchTest
  static final ArchRule chartsAreConfined =
      confined("org.jfree..", "bellwire.app.desk..", "bellwire.app.drawing..");

  @ArchTest
  static final ArchRule pagesArePrintedInOnePlace =
      confined("org.apache.pdfbox..", "bellwire.app.document..");

  @ArchTest
  static final ArchRule svgIsWrittenInOnePlace =
      confined("org.apache.batik..", "bellwire.app.document..");

  /** Elsewhere nothing needs a screen; the command line asks only whether there is one. */
  @ArchTest
  static final ArchRule graphicsAreConfined =
      confined(
          "java.awt..",
          "bellwire.app.desk..",
          "bellwire.app.drawing..",
          "bellwire.app.document..",
          "bellwire.app.cli..");

  @ArchTest
  static final ArchRule parquetIsConfined =
      confined("org.apache.parquet..", "bellwire.app.export..");

  /** What is drawn on paper and at the desk alike knows neither. */
  @ArchTest
  static final ArchRule drawingsKnowNeitherDeskNorPaper =
      noClasses()
          .that()
          .resideInAPackage("bellwire.app.drawing..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("bellwire.app.desk..", "bellwire.app.document..")
          .allowEmptyShould(true);

  /** The services are whole without a window. */
  @ArchTest
  static final ArchRule onlyTheCommandLineOpensTheDesk =
      noClasses()
          .that()
          .resideInAPackage("bellwire.app..")
          .and()
          .resideOutsideOfPackages("bellwire.app.desk..", "bellwire.app.cli..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("bellwire.app.desk..")
          .allowEmptyShould(true);

  private static ArchRule confined(String library, String... packages) {
    return noClasses()
        .that()
        .resideInAPackage("bellwire..")
        .and()
        .resideOutsideOfPackages(packages)
        .should()
        .dependOnClassesThat()
        .resideInAPackage(library)
        .allowEmptyShould(true);
  }

  @ArchTest
  static final ArchRule consoleIsConfined =
      noClasses()
          .that()
          .resideInAPackage("bellwire..")
          .and()
          .resideOutsideOfPackage("bellwire.app.cli..")
          .and(DescribedPredicate.not(isOneOf(ENTRIES)))
          .should()
          .accessField(System.class, "out")
          .orShould()
          .accessField(System.class, "err")
          .orShould()
          .callMethod(Throwable.class, "printStackTrace")
          .allowEmptyShould(true);

  // Style that a machine can hold.

  @ArchTest
  static final ArchRule namesSayWhatAClassIsFor =
      classes()
          .that()
          .resideInAPackage("bellwire..")
          .should()
          .haveSimpleNameNotEndingWith("Util")
          .andShould()
          .haveSimpleNameNotEndingWith("Utils")
          .andShould()
          .haveSimpleNameNotEndingWith("Helper")
          .andShould()
          .haveSimpleNameNotEndingWith("Manager")
          .andShould()
          .haveSimpleNameNotEndingWith("Impl");

  @ArchTest
  static final ArchRule onlyTheRuntimesSleep =
      noClasses()
          .that()
          .resideInAPackage("bellwire..")
          .and()
          .resideOutsideOfPackages(SLEEPING)
          .should()
          .callMethod(Thread.class, "sleep", long.class)
          .orShould()
          .callMethod(Thread.class, "sleep", long.class, int.class)
          .orShould()
          .callMethod(TimeUnit.class, "sleep", long.class)
          .allowEmptyShould(true);
}
