// The only file that includes CLI11: it costs over a second of compile time a file.

#include "command_line.hpp"

#include <algorithm>
#include <map>
#include <memory>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>

#include "graftcast/error.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast::cli {

namespace {

/// An option of the parser beside its description.
struct Bound {
  const OptionSpec* spec;
  CLI::Option* option;
};

struct BoundCommand {
  const CommandSpec* spec = nullptr;
  CLI::App* app = nullptr;
  std::vector<Bound> options;
  std::vector<CLI::Option*> words;
};

std::string names_of(const OptionSpec& spec) {
  return spec.short_name.empty() ? spec.name : spec.short_name + ',' + spec.name;
}

Bound bound(CLI::App& app, const OptionSpec& spec) {
  if (spec.value.empty()) return {&spec, app.add_flag(names_of(spec))->disable_flag_override()};
  CLI::Option* option = app.add_option(names_of(spec));
  option->expected(1)->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)->allow_extra_args(false);
  return {&spec, option};
}

CLI::Option* bound(CLI::App& app, const WordSpec& spec) {
  CLI::Option* option = app.add_option(spec.name);
  constexpr int no_limit = 1 << 20;
  option->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  return spec.many ? option->expected(0, no_limit)->allow_extra_args() : option->expected(1);
}

std::pair<std::string, std::string> split_name(const std::string& name) {
  const std::size_t blank = name.find(' ');
  if (blank == std::string::npos) return {name, {}};
  return {name.substr(0, blank), name.substr(blank + 1)};
}

/// Hands the values over, in the order in which they stand in the description.
void take_values(const std::vector<Bound>& options) {
  for (const auto& [spec, option] : options) {
    if (spec->value.empty()) {
      if (option->count() > 0) spec->take({});
      continue;
    }
    for (const std::string& value : option->results()) spec->take(value);
  }
}

class Parser {
 public:
  Parser(std::span<const CommandSpec> commands, std::span<const OptionSpec> global_options)
      : commands_(commands), global_options_(global_options) {
    set_up(app_);
    app_.require_subcommand(0, 1);  // Once a command is found, its words are not taken for commands.
    for (const OptionSpec& spec : global_options_) globals_.push_back(bound(app_, spec));
    short_help_ = app_.add_flag("-h");
    long_help_ = app_.add_flag("--help");
    version_ = app_.add_flag("--version");
    for (const CommandSpec& spec : commands_) add(spec);
  }

  Request request(std::vector<std::string> arguments) {
    mark_literal_words(arguments);
    parse(std::move(arguments));
    const BoundCommand* chosen = chosen_command();
    Request request{Request::What::nothing, chosen != nullptr ? chosen->spec : nullptr, chosen_group()};
    if (wants_text(request)) return request;
    refuse_extras(chosen);
    take_values(globals_);
    if (chosen == nullptr) return request;
    take_values(chosen->options);
    take_words(*chosen);
    request.what = Request::What::command;
    return request;
  }

 private:
  static constexpr char literal_mark = '\x01';

  static void set_up(CLI::App& app) {
    app.set_help_flag();
    app.allow_extras();
    app.fallthrough();
  }

  void add(const CommandSpec& spec) {
    const auto [first, second] = split_name(spec.name);
    CLI::App* app = second.empty() ? app_.add_subcommand(first) : group(first).add_subcommand(second);
    set_up(*app);
    BoundCommand command{&spec, app, {}, {}};
    for (const OptionSpec& option : spec.options) command.options.push_back(bound(*app, option));
    for (const WordSpec& word : spec.words) command.words.push_back(bound(*app, word));
    bound_.push_back(std::move(command));
  }

  CLI::App& group(const std::string& name) {
    CLI::App*& app = groups_[name];
    if (app == nullptr) {
      app = app_.add_subcommand(name);
      set_up(*app);
      app->require_subcommand(0, 1);
    }
    return *app;
  }

  /// What follows "--" is a word, whatever it looks like; the mark keeps the parser from taking it for an
  /// option.
  static void mark_literal_words(std::vector<std::string>& arguments) {
    const auto dashes = std::ranges::find(arguments, "--");
    if (dashes == arguments.end()) return;
    std::for_each(dashes + 1, arguments.end(), [](std::string& text) { text.insert(0, 1, literal_mark); });
    arguments.erase(dashes);
  }

  static std::string without_mark(const std::string& text) {
    return text.starts_with(literal_mark) ? text.substr(1) : text;
  }

  void parse(std::vector<std::string> arguments) {
    std::ranges::reverse(arguments);  // The parser takes them from the end.
    try {
      app_.parse(std::move(arguments));
    } catch (const CLI::ArgumentMismatch& error) {
      throw UsageError(tr("an option lacks its value ({reason})", "reason"_a = error.what()));
    } catch (const CLI::ParseError& error) {
      throw UsageError(error.what());
    }
  }

  const BoundCommand* chosen_command() const {
    for (const BoundCommand& command : bound_)
      if (command.app->parsed()) return &command;
    return nullptr;
  }

  std::string chosen_group() const {
    for (const auto& [name, app] : groups_)
      if (app->parsed()) return name;
    return {};
  }

  bool wants_text(Request& request) const {
    if (version_->count() > 0) request.what = Request::What::version;
    if (short_help_->count() > 0) request.what = Request::What::short_help;
    if (long_help_->count() > 0) request.what = Request::What::long_help;
    return request.what != Request::What::nothing;
  }

  void refuse_extras(const BoundCommand* chosen) const {
    const std::vector<std::string> extras = app_.remaining(true);
    if (extras.empty()) return;
    const auto option =
        std::ranges::find_if(extras, [](const std::string& text) { return text.starts_with('-'); });
    if (option != extras.end()) refuse_option(*option, chosen);
    if (chosen == nullptr) refuse_command(extras.front());
    throw UsageError(tr("'{command}' does not take the word {word}", "command"_a = chosen->spec->name,
                        "word"_a = shown(without_mark(extras.front()))),
                     tr("see 'graftcast {command} -h'", "command"_a = chosen->spec->name));
  }

  [[noreturn]] void refuse_option(const std::string& text, const BoundCommand* chosen) const {
    std::vector<std::string> known{"--help", "--version"};
    for (const OptionSpec& spec : global_options_) known.push_back(spec.name);
    if (chosen != nullptr)
      for (const OptionSpec& spec : chosen->spec->options) known.push_back(spec.name);
    const std::string near = nearest_hint(text.substr(0, text.find('=')), known);
    throw UsageError(tr("there is no option {option}", "option"_a = shown(text)),
                     near.empty() ? tr("see --help") : near);
  }

  [[noreturn]] void refuse_command(const std::string& text) const {
    const std::string in_group = chosen_group();
    std::vector<std::string> known;
    for (const CommandSpec& spec : commands_) {
      const auto [first, second] = split_name(spec.name);
      if (in_group.empty()) known.push_back(first);
      if (in_group == first) known.push_back(second);
    }
    const std::string near = nearest_hint(text, known);
    throw UsageError(tr("there is no command {command}",
                        "command"_a = shown(in_group.empty() ? text : in_group + ' ' + text)),
                     near.empty() ? tr("see 'graftcast -h'") : near);
  }

  static void take_words(const BoundCommand& command) {
    for (std::size_t i = 0; i < command.words.size(); ++i) {
      const WordSpec& spec = command.spec->words[i];
      const auto& values = command.words[i]->results();
      if (spec.required && values.empty())
        throw UsageError(
            tr("'{command}' lacks {word}", "command"_a = command.spec->name, "word"_a = spec.name),
            tr("see 'graftcast {command} -h'", "command"_a = command.spec->name));
      for (const std::string& value : values) spec.take(without_mark(value));
    }
  }

  std::span<const CommandSpec> commands_;
  std::span<const OptionSpec> global_options_;
  CLI::App app_;
  CLI::Option *short_help_ = nullptr, *long_help_ = nullptr, *version_ = nullptr;
  std::vector<Bound> globals_;
  std::vector<BoundCommand> bound_;
  std::map<std::string, CLI::App*> groups_;
};

}  // namespace

Request parse_command_line(const std::vector<std::string>& arguments, std::span<const CommandSpec> commands,
                           std::span<const OptionSpec> global_options) {
  return Parser(commands, global_options).request(arguments);
}

}  // namespace graftcast::cli
