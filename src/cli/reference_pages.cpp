#include "reference_pages.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "report/text_layout.hpp"

namespace graftcast::cli {

namespace {

/// What stands in the foot of every page.
struct Edition {
  const std::string& version;
  const std::string& date;
};

/// Text as roff has it: backslashes and hyphens escaped, no line taken for a request.
std::string roff(std::string_view text) {
  std::string safe;
  if (text.starts_with('.') || text.starts_with('\'')) safe += "\\&";
  for (const char letter : text) {
    if (letter == '\\') {
      safe += "\\e";
    } else if (letter == '-') {
      safe += "\\-";
    } else {
      safe += letter;
    }
  }
  return safe;
}

/// Running text, in lines of a length that its readers are used to.
std::string flowed(std::string_view text) {
  constexpr std::size_t line_length = 72;
  std::string lines;
  for (const std::string& line : wrapped(text, line_length)) lines += roff(line) + '\n';
  return lines;
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

std::string head(const std::string& page, std::string_view summary, const Edition& edition) {
  return fmt::format(".TH {} 1 {} \"{}\" \"User Commands\"\n.SH NAME\n{} \\- {}\n", roff(in_upper_case(page)),
                     edition.date, roff(edition.version), roff(page), roff(summary));
}

std::string paragraphs(std::string_view text) {
  std::string pages;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    if (!pages.empty()) pages += ".PP\n";
    pages += flowed(text.substr(at, end - at));
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
  return fmt::format(".TP\n{}\n{}", name, flowed(help));
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
    text += fmt::format(".TP\n\\fB{}\\fR\n{}", roff(example.command), flowed(example.what));
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
    text += fmt::format(".TP\n\\fI{}\\fR\n{}", roff(word.name), flowed(word.help));
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
  for (const auto& [code, meaning] : codes) text += fmt::format(".TP\n{}\n{}", code, flowed(meaning));
  return text;
}

std::string command_page(const CommandSpec& command, std::span<const OptionSpec> global_options,
                         const Edition& edition) {
  std::string text = head(page_name(command), command.summary, edition) + synopsis(command);
  text += ".SH DESCRIPTION\n" + paragraphs(command.about) + words_section(command);
  text += ".SH OPTIONS\n" + option_sections(command.options) + option_sections(global_options);
  text += example_section(command.examples) + exit_section();
  return text + ".SH SEE ALSO\n.BR graftcast (1)\n";
}

std::string program_page(std::span<const CommandSpec> commands, std::span<const OptionSpec> global_options,
                         const Edition& edition) {
  std::string text = head("graftcast", "the weather-aware care of fresh fruit-tree grafts", edition);
  text +=
      ".SH SYNOPSIS\n\\fBgraftcast\\fR [\\fIOPTION\\fR...] \\fICOMMAND\\fR [\\fIWORD\\fR...]\n"
      ".SH DESCRIPTION\n";
  text += flowed(
      "Reads a weather log and a forecast, works out how hot and how dry it gets at each graft, carries the "
      "healing and the water of every union hour by hour, and tells which grafts need what, and by when.");
  text += ".SH COMMANDS\n";
  for (const CommandSpec& command : commands) {
    text += fmt::format(".TP\n\\fB{}\\fR\n{}; see\n.BR {} (1)\n", roff(command.name), roff(command.summary),
                        roff(page_name(command)));
  }
  return text + ".SH OPTIONS\n" + option_sections(global_options) + exit_section();
}

}  // namespace

std::map<std::string, std::string> manual_pages(std::span<const CommandSpec> commands,
                                                std::span<const OptionSpec> global_options,
                                                const std::string& version, const std::string& date) {
  const Edition edition{version, date};
  std::map<std::string, std::string> pages;
  pages["graftcast.1"] = program_page(commands, global_options, edition);
  for (const CommandSpec& command : commands)
    pages[page_name(command) + ".1"] = command_page(command, global_options, edition);
  return pages;
}

}  // namespace graftcast::cli
