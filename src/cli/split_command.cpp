// `split`: part of a batch becomes a row of its own.

#include <limits>
#include <memory>

#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "open_site.hpp"
#include "records/split_batch.hpp"
#include "report/json_report.hpp"
#include "report/text_layout.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct SplitOptions {
  std::string id;
  int count = 0;
};

Answer run(const SplitOptions& options, const GlobalOptions& global) {
  const OpenSite open = open_site(global);
  const SplitRows rows = split_batch(open.folder, open.site, open.clock, open.models.known_names(),
                                     options.id, options.count, open.as_of);
  const ReportBasis basis = basis_of("split", open, global);
  const auto json = [&] {
    auto answer = basis_json(basis);
    answer["parent"] = graft_json(rows.parent);
    answer["child"] = graft_json(rows.child);
    return answer;
  };
  return answered(global, basis, json, [&] {
    return printable(trn("{id}: {count} graft, split off {batch}, which keeps {kept}",
                         "{id}: {count} grafts, split off {batch}, which keeps {kept}", rows.child.count,
                         "id"_a = rows.child.id, "count"_a = rows.child.count, "batch"_a = rows.parent.id,
                         "kept"_a = rows.parent.count)) +
           '\n';
  });
}

}  // namespace

CommandSpec split_command() {
  const auto options = std::make_shared<SplitOptions>();
  return {
      "split",
      tr("make part of a batch a row of its own"),
      tr("When part of a batch is moved, bagged or shaded apart from the rest, it needs a row of its own. N "
         "grafts of "
         "the batch ID become the row ID.1 (then ID.2, ...), which shares the batch's notes up to now (or "
         "--at)."),
      {{"graftcast split C1 4", tr("four of batch C1 become C1.1")},
       {"graftcast split C2 3 --at 2025-06-09T08:00",
        tr("three of C2 were treated apart from that moment on")}},
      {},
      {{"ID", tr("the batch"), true, false, into(options->id), true},
       {"N", tr("how many of it"), true, false,
        [options](const std::string& text) {
          options->count = static_cast<int>(whole_number("split", text, 1, std::numeric_limits<int>::max()));
        }}},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
