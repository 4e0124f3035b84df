#pragma once
// Every command that writes, on a site of its own, for what may befall it.

#include <filesystem>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "cli/small_site.hpp"
#include "diary_text.hpp"
#include "temporary_folder.hpp"
#include "traced_run.hpp"
#include "weather/loopback_server.hpp"

namespace graftcast::testing {

/// Files with their content, by their path within a folder; folders end in a slash. In a diary the random ids
/// are hidden: no two runs give the same.
using Tree = std::map<std::string, std::string>;
Tree tree_of(const std::filesystem::path& folder);

/// Two days of an invented forecast in the shape of Open-Meteo's.
std::string played_forecast();

/// One command: what is there before, and how it is called. Paths are within the folder it runs in, where the
/// site stands as `site`.
struct WritingCommand {
  std::string name;
  std::vector<std::string> words;
  std::function<void(const SmallSite&)> prepare = [](const SmallSite&) {};
  Tree beside{};                    ///< Files beside the site.
  std::string input{};              ///< Standard input.
  std::set<std::string> in_part{};  ///< Files that may hold a part of what is new, whole in itself.
  bool asks_a_service = false;      ///< The first source of its site is a forecast service.
};

const std::vector<WritingCommand>& writing_commands();

/// A folder in which a command can be run again and again from the same beginning.
class Stage {
 public:
  explicit Stage(const WritingCommand& command);

  /// Everything as it was before.
  void set_back() const;
  Traced play(const Fault& fault = {}) const;
  /// Another command on the same site.
  Said run(const std::vector<std::string>& words, const std::string& input = {}) const;
  Tree tree() const { return tree_of(folder_.path()); }
  const std::filesystem::path& path() const { return folder_.path(); }

  const Tree& before() const { return before_; }
  const Tree& after() const { return after_; }  ///< As the command leaves it.

  /// What is wrong with a tree in which the command was broken off: a file lost, a line lost, or a file that
  /// is neither the old nor the new one. Empty where nothing is.
  std::string damage(const Tree& tree) const;
  /// What is left of temporary files.
  std::vector<std::string> leftovers(const Tree& tree) const;
  bool is_done(const Tree& tree) const;

 private:
  std::vector<std::string> all_words() const;
  bool is_leftover(const std::string& path) const;

  const WritingCommand& command_;
  LoopbackServer server_;
  SmallSite master_;
  TemporaryFolder folder_;
  Tree before_, after_;
};

}  // namespace graftcast::testing
