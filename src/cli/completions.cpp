#include "completions.hpp"

#include <algorithm>
#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace graftcast::cli {

namespace {

/// In single quotes for any of the shells: a quote within ends them, stands escaped, and begins them again.
std::string shell_quoted(std::string_view text) {
  std::string safe = "'";
  for (const char letter : text) {
    if (letter == '\'')
      safe += "'\\''";
    else
      safe += letter;
  }
  return safe + '\'';
}

std::vector<std::string> option_names(std::span<const OptionSpec> options) {
  std::vector<std::string> names;
  for (const OptionSpec& option : options) {
    if (!option.short_name.empty()) names.push_back(option.short_name);
    names.push_back(option.name);
  }
  return names;
}

std::string first_word(const std::string& name) {
  return name.substr(0, name.find(' '));
}

std::string second_word(const std::string& name) {
  return name.find(' ') == std::string::npos ? std::string{} : name.substr(name.find(' ') + 1);
}

std::vector<std::string> first_words(std::span<const CommandSpec> commands) {
  std::vector<std::string> words;
  for (const CommandSpec& command : commands)
    if (std::ranges::find(words, first_word(command.name)) == words.end())
      words.push_back(first_word(command.name));
  return words;
}

/// Second words of the commands that begin with `group`.
std::vector<std::string> second_words(std::span<const CommandSpec> commands, const std::string& group) {
  std::vector<std::string> words;
  for (const CommandSpec& command : commands)
    if (first_word(command.name) == group && !second_word(command.name).empty())
      words.push_back(second_word(command.name));
  return words;
}

/// Options that take a value: what follows them is no command.
std::vector<std::string> names_with_value(std::span<const OptionSpec> options) {
  std::vector<std::string> names;
  for (const OptionSpec& option : options) {
    if (option.value.empty()) continue;
    if (!option.short_name.empty()) names.push_back(option.short_name);
    names.push_back(option.name);
  }
  return names;
}

/// The shells' case branches: for each command what may follow it, as words of one line.
std::string branches(std::span<const CommandSpec> commands, std::string_view form) {
  std::string text;
  for (const std::string& first : first_words(commands)) {
    const std::vector<std::string> seconds = second_words(commands, first);
    if (!seconds.empty())
      text +=
          fmt::format(fmt::runtime(form), shell_quoted(first), fmt::format("{}", fmt::join(seconds, " ")));
  }
  for (const CommandSpec& command : commands)
    text += fmt::format(fmt::runtime(form), shell_quoted(command.name),
                        fmt::format("{}", fmt::join(option_names(command.options), " ")));
  return text;
}

std::string groups_pattern(std::span<const CommandSpec> commands) {
  std::vector<std::string> groups;
  for (const std::string& first : first_words(commands))
    if (!second_words(commands, first).empty()) groups.push_back(first);
  return fmt::format("{}", fmt::join(groups, "|"));
}

}  // namespace

std::string bash_completion(std::span<const CommandSpec> commands,
                            std::span<const OptionSpec> global_options) {
  std::string text =
      "# bash completion for graftcast\n_graftcast() {\n"
      "  local word=${COMP_WORDS[COMP_CWORD]} chosen= skip= i choices\n"
      "  for ((i = 1; i < COMP_CWORD; ++i)); do\n"
      "    if [ -n \"$skip\" ]; then skip=; continue; fi\n"
      "    case ${COMP_WORDS[i]} in\n";
  text += fmt::format("      {}) skip=1 ;;\n", fmt::join(names_with_value(global_options), "|"));
  text +=
      "      -*) ;;\n"
      "      *) case $chosen in\n"
      "           '') chosen=${COMP_WORDS[i]} ;;\n";
  text += fmt::format("           {}) chosen=\"$chosen ${{COMP_WORDS[i]}}\" ;;\n", groups_pattern(commands));
  text += "         esac ;;\n    esac\n  done\n  case $chosen in\n";
  text += fmt::format("    '') choices='{}' ;;\n", fmt::join(first_words(commands), " "));
  text += branches(commands, "    {}) choices='{}' ;;\n") + "    *) choices= ;;\n  esac\n";
  text += fmt::format("  [[ $word != -* && -n $chosen ]] || choices=\"$choices {} --help --version\"\n",
                      fmt::join(option_names(global_options), " "));
  return text +
         "  COMPREPLY=($(compgen -W \"$choices\" -- \"$word\"))\n}\n"
         "complete -o bashdefault -o default -F _graftcast graftcast\n";
}

std::string zsh_completion(std::span<const CommandSpec> commands,
                           std::span<const OptionSpec> global_options) {
  std::string text =
      "#compdef graftcast\nlocal chosen= skip= word choices\n"
      "for word in ${words[2,CURRENT-1]}; do\n"
      "  if [[ -n $skip ]]; then skip=; continue; fi\n"
      "  case $word in\n";
  text += fmt::format("    {}) skip=1 ;;\n", fmt::join(names_with_value(global_options), "|"));
  text += "    -*) ;;\n    *) case $chosen in\n         '') chosen=$word ;;\n";
  text += fmt::format("         {}) chosen=\"$chosen $word\" ;;\n", groups_pattern(commands));
  text += "       esac ;;\n  esac\ndone\ncase $chosen in\n";
  text += fmt::format("  '') choices='{}' ;;\n", fmt::join(first_words(commands), " "));
  text += branches(commands, "  {}) choices='{}' ;;\n") + "  *) choices= ;;\nesac\n";
  text += fmt::format("compadd -- ${{=choices}} {} --help --version\n",
                      fmt::join(option_names(global_options), " "));
  return text + "[[ -z $chosen ]] || _files\n";
}

std::string fish_completion(std::span<const CommandSpec> commands,
                            std::span<const OptionSpec> global_options) {
  const auto option_line = [](const OptionSpec& option, const std::string& condition) {
    std::string line = "complete -c graftcast" + condition;
    if (!option.short_name.empty()) line += " -s " + option.short_name.substr(1);
    line += " -l " + option.name.substr(2);
    if (!option.value.empty()) line += " -r";
    return fmt::format("{} -d {}\n", line, shell_quoted(option.help));
  };
  std::string text = "# fish completion for graftcast\n";
  for (const OptionSpec& option : global_options) text += option_line(option, "");
  for (const CommandSpec& command : commands) {
    const std::string first = first_word(command.name), second = second_word(command.name);
    const std::string place =
        second.empty() ? "__fish_use_subcommand" : fmt::format("__fish_seen_subcommand_from {}", first);
    text += fmt::format("complete -c graftcast -n {} -a {} -d {}\n", shell_quoted(place),
                        second.empty() ? first : second, shell_quoted(command.summary));
    std::string within = fmt::format("__fish_seen_subcommand_from {}", first);
    if (!second.empty()) within += fmt::format("; and __fish_seen_subcommand_from {}", second);
    for (const OptionSpec& option : command.options)
      text += option_line(option, fmt::format(" -n {}", shell_quoted(within)));
  }
  for (const std::string& first : first_words(commands))
    if (!second_words(commands, first).empty())
      text += fmt::format("complete -c graftcast -n '__fish_use_subcommand' -a {}\n", first);
  return text;
}

}  // namespace graftcast::cli
