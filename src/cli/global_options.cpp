#include "global_options.hpp"

#include <algorithm>
#include <clocale>
#include <cstdlib>
#include <limits>
#include <thread>

#include <langinfo.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "graftcast/error.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

const std::vector<std::string> unit_words{"metric", "us"};
const std::vector<std::string> colour_words{"auto", "always", "never"};

constexpr int most_members = 4096;
constexpr int most_threads = 256;
constexpr int widest = 400;
constexpr int morning_hour = 6;
/// Seeds are read as doubles, which hold whole numbers exactly up to here.
constexpr long long greatest_seed = 9007199254740992;

std::vector<OptionSpec> what_is_asked(GlobalOptions& options) {
  return {
      {"--site", "-s", "DIR", tr("site folder (default: this one)"), tr("The folder that holds site.json."),
       tr("Which site, when"), [&](const std::string& text) { options.site = text; }},
      {"--at", "", "TIME", tr("answer as if it were then (default: now)"),
       tr("Weather up to then counts as measured, later weather only as far as it was forecast by then. On "
          "the "
          "site's "
          "clock unless the time has Z or an offset; a date alone means six in the morning."),
       tr("Which site, when"), into(options.at)},
      {"--hindsight", "", "", tr("with --at: use the log after that time as well"),
       tr("The later log stands in for the forecast of the time."), tr("Which site, when"),
       into(options.hindsight)}};
}

std::vector<OptionSpec> how_it_is_worked_out(GlobalOptions& options) {
  return {{"--seed", "", "N", tr("seed of the ensemble (default: 1)"),
           tr("The same seed gives the same bytes."), tr("How it is worked out"),
           [&](const std::string& text) {
             options.seed = static_cast<std::uint64_t>(whole_number("--seed", text, 0, greatest_seed));
           }},
          {"--members", "", "N", tr("members of the ensemble (default: 64)"),
           tr("Each member believes other numbers of the model and other weather; more of them give finer "
              "percentages."),
           tr("How it is worked out"),
           [&](const std::string& text) {
             options.members = static_cast<int>(whole_number("--members", text, 1, most_members));
           }},
          {"--threads", "", "N", tr("threads (default: all processors)"),
           tr("The answer does not depend on it."), tr("How it is worked out"), [&](const std::string& text) {
             options.threads = static_cast<int>(whole_number("--threads", text, 1, most_threads));
           }}};
}

std::vector<OptionSpec> how_it_is_shown(GlobalOptions& options) {
  return {
      {"--json", "", "", tr("one JSON object on standard output"),
       tr("Described by models/schema/output-*.schema.json. Always metric, times in UTC. An error is an "
          "object "
          "on "
          "standard error."),
       tr("How it is shown"), into(options.json)},
      {"--language", "", "NAME", tr("language of texts (default: the environment's)"),
       tr("By LANGUAGE, LC_ALL, LC_MESSAGES and LANG where it is not given. JSON, files and manual pages are "
          "in "
          "English."),
       // Read before the others (language_option.hpp), so that their errors are in that language.
       tr("How it is shown"), [](const std::string&) {}},
      {"--units", "", "SYSTEM", tr("metric or us (default: metric)"),
       tr("For text; JSON names its units in its keys."), tr("How it is shown"),
       [&](const std::string& text) {
         options.units = word_of("--units", text, unit_words) == "us" ? UnitSystem::us : UnitSystem::metric;
       }},
      {"--color", "", "WHEN", tr("auto, always or never (default: auto)"),
       tr("auto: on a terminal, unless NO_COLOR is set or TERM is dumb. Colour never carries the message."),
       tr("How it is shown"),
       [&](const std::string& text) {
         const std::string word = word_of("--color", text, colour_words);
         options.colour = word == "always" ? When::always : word == "never" ? When::never : When::automatic;
       }},
      {"--width", "", "N", tr("columns (default: the terminal's, else 80)"), "", tr("How it is shown"),
       [&](const std::string& text) {
         options.width = static_cast<int>(whole_number("--width", text, least_width, widest));
       }},
      {"--ascii", "", "", tr("no characters beyond ASCII"), tr("The default where the locale is not UTF-8."),
       tr("How it is shown"), into(options.ascii)}};
}

bool set(const char* variable) {
  const char* value = std::getenv(variable);
  return value != nullptr && *value != '\0';
}

bool colour_wanted(const GlobalOptions& options) {
  if (options.colour != When::automatic) return options.colour == When::always;
  const char* terminal = std::getenv("TERM");
  const bool dumb = terminal != nullptr && std::string_view(terminal) == "dumb";
  return ::isatty(STDOUT_FILENO) == 1 && !set("NO_COLOR") && !dumb;
}

std::size_t columns(const GlobalOptions& options) {
  if (options.width) return static_cast<std::size_t>(*options.width);
  winsize size{};
  if (::isatty(STDOUT_FILENO) == 1 && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
    return std::max<std::size_t>(size.ws_col, least_width);
  return TerminalStyle{}.width;
}

bool locale_is_utf8() {
  std::setlocale(LC_CTYPE, "");
  return std::string_view(::nl_langinfo(CODESET)) == "UTF-8";
}

}  // namespace

std::vector<OptionSpec> global_option_specs(GlobalOptions& options) {
  std::vector<OptionSpec> specs = what_is_asked(options);
  for (OptionSpec& spec : how_it_is_worked_out(options)) specs.push_back(std::move(spec));
  for (OptionSpec& spec : how_it_is_shown(options)) specs.push_back(std::move(spec));
  return specs;
}

TerminalStyle style_of(const GlobalOptions& options) {
  return {.width = columns(options),
          .colour = colour_wanted(options),
          .utf8 = !options.ascii && locale_is_utf8(),
          .units = options.units};
}

Instant moment_of(const GlobalOptions& options, const Clock& clock) {
  if (!options.at.empty()) return time_of("--at", options.at, clock, morning_hour);
  return std::chrono::floor<std::chrono::minutes>(std::chrono::system_clock::now());
}

int threads_of(const GlobalOptions& options) {
  if (options.threads > 0) return options.threads;
  return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

}  // namespace graftcast::cli
