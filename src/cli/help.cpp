#include "help.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "report/text_layout.hpp"
#include "text/tr.hpp"

namespace graftcast::cli {

namespace {

constexpr std::size_t help_column = 24;

std::string paragraph(std::string_view text, const TerminalStyle& style, std::size_t indent) {
  std::string lines;
  for (const std::string& line : wrapped(text, std::max(style.width, least_width) - indent))
    lines += std::string(indent, ' ') + line + '\n';
  return lines;
}

/// `  name                   text`, the text under itself where it is long.
std::string entry(const std::string& name, std::string_view text, const TerminalStyle& style) {
  const std::string lead = "  " + name;
  const std::size_t indent = style.width < 60 ? 6 : help_column;
  std::string body = paragraph(text, style, indent);
  if (lead.size() + 1 >= indent) return lead + '\n' + body;
  return lead + body.substr(lead.size());
}

std::string option_name(const OptionSpec& option) {
  std::string name = option.short_name.empty() ? option.name : option.short_name + ", " + option.name;
  return option.value.empty() ? name : name + ' ' + option.value;
}

std::string option_lines(std::span<const OptionSpec> options, const TerminalStyle& style, bool full) {
  std::string text;
  std::string group;
  for (const OptionSpec& option : options) {
    if (option.group != group)
      text += fmt::format("\n{}\n", painted(style, Tone::strong, group = option.group));
    const std::string help =
        full && !option.more.empty() ? fmt::format("{}. {}", option.help, option.more) : option.help;
    text += entry(option_name(option), help, style);
  }
  return text;
}

std::string examples(std::span<const Example> examples, const TerminalStyle& style) {
  std::string text = painted(style, Tone::strong, tr("Examples")) + '\n';
  for (const Example& example : examples)
    text += fmt::format("  {}\n{}", example.command, paragraph(example.what, style, 6));
  return text;
}

std::string usage(const CommandSpec& command) {
  std::string line = fmt::format("graftcast {}", command.name);
  if (!command.options.empty()) line += " [OPTION...]";
  for (const WordSpec& word : command.words) {
    const std::string name = word.many ? word.name + "..." : word.name;
    line += word.required ? " " + name : fmt::format(" [{}]", name);
  }
  return line;
}

std::string exit_codes(const TerminalStyle& style) {
  return fmt::format("\n{}\n", painted(style, Tone::strong, tr("Exit codes"))) +
         paragraph(tr("0 done; 2 wrong usage; 65 bad input data (the message names file, line and column); "
                      "66 a file "
                      "that "
                      "cannot be opened; 69 a service that cannot be reached; 74 a write that failed; 75 "
                      "done in part "
                      "(it says what not)."),
                   style, 2);
}

std::vector<OptionSpec> common(std::span<const OptionSpec> options) {
  std::vector<OptionSpec> few;
  for (const OptionSpec& option : options)
    if (option.name == "--site" || option.name == "--at" || option.name == "--json") few.push_back(option);
  return few;
}

std::string words_lines(const CommandSpec& command, const TerminalStyle& style) {
  if (command.words.empty()) return {};
  std::string text = fmt::format("\n{}\n", painted(style, Tone::strong, tr("Words")));
  for (const WordSpec& word : command.words) text += entry(word.name, word.help, style);
  return text;
}

std::string about_lines(std::string_view about, const TerminalStyle& style) {
  std::string text;
  for (std::size_t at = 0; at < about.size();) {
    const std::size_t end = std::min(about.find('\n', at), about.size());
    text += '\n' + paragraph(about.substr(at, end - at), style, 0);
    at = end + 1;
  }
  return text;
}

}  // namespace

std::string program_help(std::span<const CommandSpec> commands, std::span<const OptionSpec> global_options,
                         const TerminalStyle& style, bool full) {
  const std::vector<Example> shown{
      {"graftcast morning", tr("which fresh grafts of the site in this folder are at risk, and what to do")},
      {"graftcast --site nursery weather show", tr("what is known of its weather")}};
  std::string text =
      paragraph(tr("graftcast: the weather-aware care of fresh fruit-tree grafts"), style, 0) + '\n';
  text += examples(shown, style) + fmt::format("\n{}\n", painted(style, Tone::strong, tr("Commands")));
  for (const CommandSpec& command : commands) text += entry(command.name, command.summary, style);
  text +=
      full ? option_lines(global_options, style, true) : option_lines(common(global_options), style, false);
  if (full) text += exit_codes(style);
  text += '\n' + paragraph(full ? tr("'graftcast COMMAND --help' says more of a command.")
                                : tr("All options: --help. Of a command: graftcast COMMAND -h"),
                           style, 0);
  return finished(style, text);
}

std::string command_help(const CommandSpec& command, std::span<const OptionSpec> global_options,
                         const TerminalStyle& style, bool full) {
  std::string text = paragraph(fmt::format("{}: {}", usage(command), command.summary), style, 0) + '\n';
  text += examples(command.examples, style);
  if (full) text += about_lines(command.about, style);
  text += words_lines(command, style) + option_lines(command.options, style, full);
  text +=
      full ? option_lines(global_options, style, true) : option_lines(common(global_options), style, false);
  if (full) text += exit_codes(style);
  if (!full) text += '\n' + paragraph(tr("More: --help"), style, 0);
  return finished(style, text);
}

}  // namespace graftcast::cli
