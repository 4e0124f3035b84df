#pragma once
// How a command describes itself: words, options, help, and what it does. Parsing, help and completion all
// come from this one description, so that they cannot disagree.

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace graftcast::cli {

struct GlobalOptions;

struct OptionSpec {
  std::string name;        ///< `--members`
  std::string short_name;  ///< `-n`, or empty.
  std::string value;       ///< What it takes: `N`; empty for a switch.
  std::string help;        ///< One line.
  std::string more;        ///< What only the long help says.
  std::string group;       ///< Heading in the help.
  /// Takes the value (of a switch: the empty text). Error: UsageError.
  std::function<void(const std::string&)> take;
};

/// A word or words beside the options.
struct WordSpec {
  std::string name;  ///< `FILE`
  std::string help;
  bool required = true;
  bool many = false;
  std::function<void(const std::string&)> take;
  bool is_graft = false;  ///< An id of grafts.csv, which completion offers.
};

struct Example {
  std::string command;  ///< Runs in a copy of the sample site, as a line of the shell.
  std::string what;
};

/// What a command answers.
struct Answer {
  std::string text;                ///< For standard output.
  std::vector<std::string> notes;  ///< For standard error: warnings, and what was done.
  int exit_code = 0;
};

struct CommandSpec {
  std::string name;     ///< `morning`, `weather show`.
  std::string summary;  ///< One line.
  std::string about;    ///< Paragraphs of the long help, separated by a line end.
  std::vector<Example> examples;
  std::vector<OptionSpec> options;
  std::vector<WordSpec> words;
  std::function<Answer(const GlobalOptions&)> run;
};

}  // namespace graftcast::cli
