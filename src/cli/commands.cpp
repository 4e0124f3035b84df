#include "commands.hpp"

namespace graftcast::cli {

std::vector<CommandSpec> all_commands() {
  return {morning_command(),     when_command(),          since_command(),        why_command(),
          learn_command(),       graft_command(),         note_command(),         split_command(),
          weather_add_command(), weather_fetch_command(), weather_show_command(), spots_command(),
          page_command(),        labels_command(),        calendar_command(),     new_command(),
          models_command(),      demo_command()};
}

}  // namespace graftcast::cli
