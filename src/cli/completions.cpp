#include "completions.hpp"

#include <algorithm>
#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace graftcast::cli {

namespace {

/// In single quotes for bash and zsh: a quote within ends them, stands escaped, and begins them again.
std::string shell_quoted(std::string_view text) {
  std::string safe = "'";
  for (const char letter : text) {
    if (letter == '\'') {
      safe += "'\\''";
    } else {
      safe += letter;
    }
  }
  return safe + '\'';
}

/// fish escapes a quote and a backslash within single quotes by a backslash.
std::string fish_quoted(std::string_view text) {
  std::string safe = "'";
  for (const char letter : text) {
    if (letter == '\'' || letter == '\\') safe += '\\';
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
  for (const CommandSpec& command : commands) {
    if (std::ranges::find(words, first_word(command.name)) == words.end())
      words.push_back(first_word(command.name));
  }
  return words;
}

/// Second words of the commands that begin with `group`.
std::vector<std::string> second_words(std::span<const CommandSpec> commands, const std::string& group) {
  std::vector<std::string> words;
  for (const CommandSpec& command : commands) {
    if (first_word(command.name) == group && !second_word(command.name).empty())
      words.push_back(second_word(command.name));
  }
  return words;
}

/// Options that take a value, of all commands: what follows one is no command and no graft. A name that is a
/// switch elsewhere is left out.
std::vector<std::string> names_with_value(std::span<const CommandSpec> commands,
                                          std::span<const OptionSpec> global_options) {
  std::vector<std::string> names;
  std::vector<std::string> switches;
  const auto add = [&](const OptionSpec& option) {
    std::vector<std::string>& list = option.value.empty() ? switches : names;
    for (const std::string& name : {option.short_name, option.name})
      if (!name.empty() && std::ranges::find(list, name) == list.end()) list.push_back(name);
  };
  for (const OptionSpec& option : global_options) add(option);
  for (const CommandSpec& command : commands)
    for (const OptionSpec& option : command.options) add(option);
  std::erase_if(names,
                [&](const std::string& name) { return std::ranges::find(switches, name) != switches.end(); });
  return names;
}

/// The shells' case branches: for each command what may follow it, as words of one line.
std::string branches(std::span<const CommandSpec> commands, std::string_view form) {
  std::string text;
  for (const std::string& first : first_words(commands)) {
    const std::vector<std::string> seconds = second_words(commands, first);
    if (!seconds.empty()) {
      text +=
          fmt::format(fmt::runtime(form), shell_quoted(first), fmt::format("{}", fmt::join(seconds, " ")));
    }
  }
  for (const CommandSpec& command : commands) {
    text += fmt::format(fmt::runtime(form), shell_quoted(command.name),
                        fmt::format("{}", fmt::join(option_names(command.options), " ")));
  }
  return text;
}

std::string groups_pattern(std::span<const CommandSpec> commands) {
  std::vector<std::string> groups;
  for (const std::string& first : first_words(commands))
    if (!second_words(commands, first).empty()) groups.push_back(first);
  return fmt::format("{}", fmt::join(groups, "|"));
}

bool takes_grafts(const CommandSpec& command) {
  return std::ranges::any_of(command.words, &WordSpec::is_graft);
}

std::vector<std::string> commands_of_grafts(std::span<const CommandSpec> commands) {
  std::vector<std::string> names;
  for (const CommandSpec& command : commands)
    if (takes_grafts(command)) names.push_back(command.name);
  return names;
}

/// Prints the ids of a ledger, one a line; for any of the shells, in their single quotes.
constexpr std::string_view ids_program =
    R"awk(NR == 1 { for (i = 1; i <= NF; ++i) if ($i ~ /^[^a-z]*id[^a-z]*$/) c = i; next } )awk"
    R"awk(c && $c != "" { gsub(/[ \r"]/, "", $c); print $c })awk";

std::string places(std::string text, std::span<const CommandSpec> commands,
                   std::span<const OptionSpec> global_options) {
  const auto put = [&](std::string_view place, const std::string& words) {
    for (std::size_t at = text.find(place); at != std::string::npos; at = text.find(place, at + words.size()))
      text.replace(at, place.size(), words);
  };
  const std::vector<std::string> with_value = names_with_value(commands, global_options);
  const std::vector<std::string> of_grafts = commands_of_grafts(commands);
  put("@valued@", fmt::format("{}", fmt::join(with_value, "|")));
  put("@valued_words@", fmt::format("{}", fmt::join(with_value, " ")));
  put("@groups@", groups_pattern(commands));
  put("@first_words@", fmt::format("{}", fmt::join(first_words(commands), " ")));
  put("@global@", fmt::format("{}", fmt::join(option_names(global_options), " ")) + " --help --version");
  put("@of_grafts@", fmt::format("{}", fmt::join(of_grafts, "|")));
  put("@ids@", std::string(ids_program));
  return text;
}

}  // namespace

std::string bash_completion(std::span<const CommandSpec> commands,
                            std::span<const OptionSpec> global_options) {
  // An id is whatever stands in a file: it is compared and quoted here, never expanded by the shell.
  std::string text = R"sh(# bash completion for graftcast
_graftcast_ids() {
  awk -F, '@ids@' "$1/grafts.csv" 2>/dev/null
}
_graftcast() {
  local word=${COMP_WORDS[COMP_CWORD]} chosen= skip= site=. i one choices
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; ++i)); do
    one=${COMP_WORDS[i]}
    if [[ $one == '=' ]]; then continue; fi
    if [[ -n $skip ]]; then
      if [[ $skip == -s || $skip == --site ]]; then site=${one/#\~/$HOME}; fi
      skip=
      continue
    fi
    case $one in
      @valued@) skip=$one ;;
      -*) ;;
      *) case $chosen in
           '') chosen=$one ;;
           @groups@) chosen="$chosen $one" ;;
         esac ;;
    esac
  done
  if [[ -n $skip || $word == '=' ]]; then return; fi
  case $chosen in
    '') choices='@first_words@' ;;
@branches@    *) choices= ;;
  esac
  if [[ $word == -* || -z $chosen ]]; then choices="$choices @global@"; fi
  while IFS= read -r one; do
    if [[ -n $one && $one == "$word"* ]]; then COMPREPLY+=("$(printf %q "$one")"); fi
  done < <(
    printf '%s\n' $choices
    if [[ $word != -* ]]; then
      case $chosen in @of_grafts@) _graftcast_ids "$site" ;; esac
    fi
  )
}
complete -o bashdefault -o default -F _graftcast graftcast
)sh";
  text = places(std::move(text), commands, global_options);
  return text.replace(text.find("@branches@"), 10, branches(commands, "    {}) choices='{}' ;;\n"));
}

std::string zsh_completion(std::span<const CommandSpec> commands,
                           std::span<const OptionSpec> global_options) {
  std::string text = R"sh(#compdef graftcast
local chosen= skip= site=. one choices
local -a ids
for one in ${words[2,CURRENT-1]}; do
  if [[ -n $skip ]]; then
    if [[ $skip == -s || $skip == --site ]]; then site=${(Q)one/#\~/$HOME}; fi
    skip=
    continue
  fi
  case $one in
    --site=*) site=${(Q)one#--site=} ;;
    @valued@) skip=$one ;;
    -*) ;;
    *) case $chosen in
         '') chosen=$one ;;
         @groups@) chosen="$chosen $one" ;;
       esac ;;
  esac
done
if [[ -n $skip ]]; then
  _files
  return
fi
case $chosen in
  '') choices='@first_words@' ;;
@branches@  *) choices= ;;
esac
compadd -- ${=choices} @global@
case $chosen in
  @of_grafts@)
    ids=(${(f)"$(awk -F, '@ids@' $site/grafts.csv 2>/dev/null)"})
    compadd -a ids ;;
  '') ;;
  *) _files ;;
esac
)sh";
  text = places(std::move(text), commands, global_options);
  return text.replace(text.find("@branches@"), 10, branches(commands, "  {}) choices='{}' ;;\n"));
}

namespace {

/// Conditions by the words that are no options and no values of options.
constexpr const char* fish_functions = R"fish(# fish completion for graftcast
function __graftcast_chosen
    set -l words (commandline -opc)
    set -e words[1]
    set -l skip
    for word in $words
        if set -q skip[1]
            set -e skip[1]
        else if contains -- $word @valued_words@
            set skip $word
        else if not string match -q -- '-*' $word
            echo -- $word
        end
    end
end
function __graftcast_begins
    not count (__graftcast_chosen) >/dev/null
end
function __graftcast_within
    set -l chosen (__graftcast_chosen)
    set -l many (count $argv)
    test (count $chosen) -ge $many
    and test "$chosen[1..$many]" = "$argv"
end
function __graftcast_after
    test "$(__graftcast_chosen)" = "$argv"
end
function __graftcast_ids
    set -l site .
    set -l words (commandline -opc)
    for at in (seq (count $words))
        if contains -- $words[$at] -s --site; and set -q words[(math $at + 1)]
            set site $words[(math $at + 1)]
        else if string match -q -- '--site=*' $words[$at]
            set site (string replace -- --site= '' $words[$at])
        end
    end
    awk -F, '@ids@' (string replace -r '^~' $HOME $site)/grafts.csv 2>/dev/null
end
)fish";

std::string fish_option(const OptionSpec& option, const std::string& condition) {
  std::string line = "complete -c graftcast" + condition;
  if (!option.short_name.empty()) line += " -s " + option.short_name.substr(1);
  line += " -l " + option.name.substr(2);
  if (!option.value.empty()) line += " -r";
  return fmt::format("{} -d {}\n", line, fish_quoted(option.help));
}

std::string fish_command(const CommandSpec& command) {
  const std::string first = first_word(command.name);
  const std::string second = second_word(command.name);
  const std::string condition = second.empty() ? "__graftcast_begins" : "__graftcast_after " + first;
  std::string text = fmt::format("complete -c graftcast -f -n {} -a {} -d {}\n", fish_quoted(condition),
                                 second.empty() ? first : second, fish_quoted(command.summary));
  const std::string within = fmt::format(" -n {}", fish_quoted("__graftcast_within " + command.name));
  for (const OptionSpec& option : command.options) text += fish_option(option, within);
  if (takes_grafts(command))
    text += fmt::format("complete -c graftcast -f{} -a '(__graftcast_ids)'\n", within);
  return text;
}

}  // namespace

std::string fish_completion(std::span<const CommandSpec> commands,
                            std::span<const OptionSpec> global_options) {
  std::string text = places(fish_functions, commands, global_options);
  for (const OptionSpec& option : global_options) text += fish_option(option, "");
  text += "complete -c graftcast -l help -d 'all options, with examples'\n";
  for (const std::string& first : first_words(commands)) {
    if (!second_words(commands, first).empty())
      text += fmt::format("complete -c graftcast -f -n __graftcast_begins -a {}\n", first);
  }
  for (const CommandSpec& command : commands) text += fish_command(command);
  return text;
}

}  // namespace graftcast::cli
