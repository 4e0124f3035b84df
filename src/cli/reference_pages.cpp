#include "reference_pages.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include <fmt/format.h>

namespace graftcast::cli {

namespace {

/// Text as roff has it: backslashes and hyphens escaped, no line taken for a request.
std::string roff(std::string_view text) {
  std::string safe;
  bool at_start = true;
  for (const char letter : text) {
    if (at_start && (letter == '.' || letter == '\'')) safe += "\\&";
    if (letter == '\\')
      safe += "\\e";
    else if (letter == '-')
      safe += "\\-";
    else
      safe += letter;
    at_start = letter == '\n';
  }
  return safe;
}

std::string in_upper_case(std::string text) {
  std::ranges::transform(text, text.begin(), [](char letter) {
    return letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter;
  });
  return text;
}

std::string page_name(const CommandSpec& command) {
  std::string name = "graftcast-" + command.name;
  std::ranges::replace(name, ' ', '-');
  return name;
}

std::string head(const std::string& page, std::string_view summary, const std::string& version) {
  return fmt::format(".TH {} 1 \"\" \"{}\" \"User Commands\"\n.SH NAME\n{} \\- {}\n",
                     roff(in_upper_case(page)), roff(version), roff(page), roff(summary));
}

std::string paragraphs(std::string_view text) {
  std::string pages;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    if (!pages.empty()) pages += ".PP\n";
    pages += roff(text.substr(at, end - at)) + '\n';
    at = end + 1;
  }
  return pages;
}

std::string option_entry(const OptionSpec& option) {
  std::string name = option.short_name.empty() ? "" : fmt::format("\\fB{}\\fR, ", roff(option.short_name));
  name += fmt::format("\\fB{}\\fR", roff(option.name));
  if (!option.value.empty()) name += fmt::format(" \\fI{}\\fR", roff(option.value));
  const std::string help =
      option.more.empty() ? option.help : fmt::format("{}. {}", option.help, option.more);
  return fmt::format(".TP\n{}\n{}\n", name, roff(help));
}

std::string option_sections(std::span<const OptionSpec> options) {
  std::string text;
  std::string group;
  for (const OptionSpec& option : options) {
    if (option.group != group) text += fmt::format(".SS {}\n", roff(group = option.group));
    text += option_entry(option);
  }
  return text;
}

std::string example_section(std::span<const Example> examples) {
  std::string text = ".SH EXAMPLES\n";
  for (const Example& example : examples)
    text += fmt::format(".TP\n\\fB{}\\fR\n{}\n", roff(example.command), roff(example.what));
  return text;
}

std::string synopsis(const CommandSpec& command) {
  std::string text =
      fmt::format(".SH SYNOPSIS\n\\fBgraftcast {}\\fR [\\fIOPTION\\fR...]", roff(command.name));
  for (const WordSpec& word : command.words) {
    const std::string name = fmt::format("\\fI{}\\fR{}", roff(word.name), word.many ? "..." : "");
    text += word.required ? ' ' + name : fmt::format(" [{}]", name);
  }
  return text + '\n';
}

std::string words_section(const CommandSpec& command) {
  if (command.words.empty()) return {};
  std::string text = ".SH WORDS\n";
  for (const WordSpec& word : command.words)
    text += fmt::format(".TP\n\\fI{}\\fR\n{}\n", roff(word.name), roff(word.help));
  return text;
}

std::string exit_section() {
  std::string text = ".SH EXIT STATUS\n";
  constexpr std::array<std::pair<int, std::string_view>, 7> codes{
      {{0, "done"},
       {2, "wrong usage"},
       {65, "bad input data; the message names file, line and column"},
       {66, "a file that cannot be opened"},
       {69, "a service that cannot be reached"},
       {74, "a write that failed"},
       {75, "done in part; it says what not"}}};
  for (const auto& [code, meaning] : codes) text += fmt::format(".TP\n{}\n{}\n", code, roff(meaning));
  return text;
}

std::string command_page(const CommandSpec& command, std::span<const OptionSpec> global_options,
                         const std::string& version) {
  std::string text = head(page_name(command), command.summary, version) + synopsis(command);
  text += ".SH DESCRIPTION\n" + paragraphs(command.about) + words_section(command);
  text += ".SH OPTIONS\n" + option_sections(command.options) + option_sections(global_options);
  text += example_section(command.examples) + exit_section();
  return text + ".SH SEE ALSO\n.BR graftcast (1)\n";
}

std::string program_page(std::span<const CommandSpec> commands, std::span<const OptionSpec> global_options,
                         const std::string& version) {
  std::string text = head("graftcast", "the weather-aware care of fresh fruit-tree grafts", version);
  text +=
      ".SH SYNOPSIS\n\\fBgraftcast\\fR [\\fIOPTION\\fR...] \\fICOMMAND\\fR [\\fIWORD\\fR...]\n"
      ".SH DESCRIPTION\n"
      "Reads a weather log and a forecast, works out how hot and how dry it gets at each graft, carries the "
      "healing and the water of every union hour by hour, and tells which grafts need what, and by when.\n"
      ".SH COMMANDS\n";
  for (const CommandSpec& command : commands)
    text += fmt::format(".TP\n\\fB{}\\fR\n{}; see\n.BR {} (1)\n", roff(command.name), roff(command.summary),
                        roff(page_name(command)));
  return text + ".SH OPTIONS\n" + option_sections(global_options) + exit_section();
}

}  // namespace

std::map<std::string, std::string> manual_pages(std::span<const CommandSpec> commands,
                                                std::span<const OptionSpec> global_options,
                                                const std::string& version) {
  std::map<std::string, std::string> pages;
  pages["graftcast.1"] = program_page(commands, global_options, version);
  for (const CommandSpec& command : commands)
    pages[page_name(command) + ".1"] = command_page(command, global_options, version);
  return pages;
}

}  // namespace graftcast::cli
