// `demo`: the sample site in a folder of one's own.

#include <cstdlib>
#include <filesystem>
#include <memory>

#include "commands.hpp"
#include "global_options.hpp"
#include "graftcast/error.hpp"
#include "parameters/models.hpp"
#include "text/atomic_file.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

constexpr const char* sample_moment = "2025-06-09T06:30";  // the moment its forecast and its diary lead up to

struct DemoOptions {
  std::string folder = "graftcast-demo";
};

/// Beside the models where it is installed; in the source tree the samples stand beside them, too.
std::filesystem::path sample_site() {
  const std::filesystem::path data = published_models_folder().parent_path();
  for (const auto& candidate : {data / "sample", data / "sample_weather" / "site"})
    if (std::filesystem::exists(candidate / "site.json")) return candidate;
  throw OpenError((data / "sample").string(), tr("the sample site is not there"),
                  tr("it is installed beside the models; GRAFTCAST_MODELS names another folder of models"));
}

void copy_files(const std::filesystem::path& from, const std::filesystem::path& to) {
  for (const auto& entry : std::filesystem::recursive_directory_iterator(from)) {
    const std::filesystem::path copy = to / entry.path().lexically_relative(from);
    if (entry.is_directory())
      make_folder(copy);
    else
      copy_file_durably(entry.path(), copy);
  }
}

/// Under another name first, so that the folder is there whole or not at all.
void copy_sample(const std::filesystem::path& target) {
  std::error_code ignored;
  if (std::filesystem::exists(std::filesystem::symlink_status(target, ignored)))
    throw UsageError(
        tr("{target} is there already, and nothing is put over it", "target"_a = target.string()),
        tr("name another folder"));
  const std::filesystem::path sample = sample_site();
  std::filesystem::path whole = std::filesystem::absolute(target).lexically_normal();
  if (!whole.has_filename()) whole = whole.parent_path();
  const std::filesystem::path unfinished = unfinished_name(whole);
  try {
    make_folder(unfinished);
    copy_files(sample, unfinished);
    rename_folder(unfinished, whole);
  } catch (const std::exception&) {
    std::filesystem::remove_all(unfinished, ignored);
    throw;
  }
}

Answer run(const DemoOptions& options, const GlobalOptions& global) {
  copy_sample(options.folder);
  GlobalOptions there = global;
  there.site = options.folder;
  if (there.at.empty()) there.at = sample_moment;
  Answer answer = morning_command().run(there);
  answer.notes.push_back(
      tr("the sample site (invented) is in {folder}; next: graftcast --site {folder} --at {moment} since",
         "folder"_a = options.folder, "moment"_a = sample_moment));
  return answer;
}

}  // namespace

CommandSpec demo_command() {
  const auto options = std::make_shared<DemoOptions>();
  return {
      "demo",
      tr("copy the sample site to a folder and answer for its morning"),
      tr("Site, grafts and weather are invented. The folder is yours to try every command on; one that is "
         "there already is left alone."),
      {{"graftcast demo", tr("into the folder graftcast-demo, here")},
       {"graftcast demo trial --json", tr("into the folder trial, with the answer for a script")}},
      {},
      {{"DIR", tr("the folder (default: graftcast-demo)"), false, false, into(options->folder)}},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
