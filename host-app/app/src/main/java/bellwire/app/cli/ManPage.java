package bellwire.app.cli;

import bellwire.app.report.Cautions;
import bellwire.app.report.ProgramVersion;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/** The manual page of the whole command tree, in man(7)'s language, from the tree's own words. */
final class ManPage {
  private static final Set<String> ON_EVERY_COMMAND = Set.of("--help", "--version");

  private final CommandLine root;
  private final List<String> lines = new ArrayList<>();

  ManPage(CommandLine root) {
    this.root = root;
  }

  /** Ends in a line feed; ASCII only. */
  String text() {
    lines.clear();
    CommandSpec spec = root.getCommandSpec();
    String name = spec.name();
    lines.add(
        ".TH %s 1 \"\" \"%s %s\" \"User commands\""
            .formatted(upper(name), "Bellwire", escaped(ProgramVersion.text())));
    section("NAME");
    lines.add(name + " \\- test the low\\-voltage control cable of a heating or cooling system");
    section("SYNOPSIS");
    lines.add(".B " + name);
    lines.add(".I COMMAND");
    lines.add("[options]");
    section("CAUTIONS");
    Cautions.lines().forEach(caution -> entry("\\(bu", caution, 2));
    section("DESCRIPTION");
    paragraph(words(spec.usageMessage().description()));
    section("COMMANDS");
    commands(root);
    lines.add(".PP");
    lines.add("Each command says with");
    lines.add(".B \\-\\-help");
    lines.add("what it takes.");
    section("EXIT STATUS");
    for (ExitCode code : ExitCode.values()) {
      entry(String.valueOf(code.status()), code.meaning(), 4);
    }
    section("SEE ALSO");
    lines.add(".BR bellwire\\-agent (8)");
    return String.join("\n", lines) + "\n";
  }

  private void section(String heading) {
    lines.add(".SH " + heading);
  }

  private void commands(CommandLine parent) {
    for (CommandLine command : new LinkedHashSet<>(parent.getSubcommands().values())) {
      CommandSpec spec = command.getCommandSpec();
      if (spec.usageMessage().hidden() || spec.userObject() instanceof CommandLine.HelpCommand) {
        continue;
      }
      lines.add(".SS " + escaped(spec.qualifiedName(" ")));
      paragraph(words(spec.usageMessage().description()));
      spec.positionalParameters().stream()
          .filter(parameter -> !parameter.hidden())
          .forEach(this::parameter);
      spec.options().stream()
          .filter(option -> !option.hidden() && !ON_EVERY_COMMAND.contains(option.longestName()))
          .forEach(this::option);
      commands(command);
    }
  }

  private void parameter(PositionalParamSpec parameter) {
    entry(".I", escaped(parameter.paramLabel()), parameter);
  }

  private void option(OptionSpec option) {
    String label = option.arity().max() == 0 ? "" : "=" + option.paramLabel();
    if (option.arity().min() == 0 && !label.isEmpty()) {
      label = "[" + label + "]";
    }
    entry(".B", escaped(String.join(", ", option.names()) + label), option);
  }

  private void entry(String font, String head, ArgSpec argument) {
    lines.add(".TP");
    lines.add(font + " \"" + head + "\"");
    paragraph(words(argument.description()));
  }

  private void entry(String head, String body, int indent) {
    lines.add(".TP " + indent);
    lines.add(head);
    paragraph(body);
  }

  private void paragraph(String body) {
    String safe = escaped(body.isBlank() ? " " : body.strip());
    // A line that begins so would be read as a request.
    lines.add(safe.startsWith(".") || safe.startsWith("'") ? "\\&" + safe : safe);
  }

  private static String words(String[] description) {
    return List.of(description).stream()
        .map(line -> Ansi.OFF.string(line).replace("%n", " ").replace("%%", "%"))
        .collect(Collectors.joining(" "));
  }

  private static String upper(String name) {
    return name.toUpperCase(Locale.ROOT);
  }

  private static String escaped(String words) {
    StringBuilder out = new StringBuilder();
    words
        .codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '\\' -> out.append("\\e");
                case '-' -> out.append("\\-");
                case '"' -> out.append("\\(dq");
                case '\'' -> out.append("\\(aq");
                default -> {
                  if (c < 128) {
                    out.appendCodePoint(c);
                  } else {
                    out.append("\\[u%04X]".formatted(c));
                  }
                }
              }
            });
    return out.toString();
  }
}
