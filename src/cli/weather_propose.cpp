#include "weather_propose.hpp"

#include <filesystem>

#include <nlohmann/json.hpp>

#include "app/site_sources.hpp"
#include "report/json_report.hpp"
#include "report/terminal_style.hpp"
#include "report/text_layout.hpp"
#include "text/tr.hpp"
#include "weather/column_proposal.hpp"

namespace graftcast::cli {

namespace {

using Json = nlohmann::ordered_json;

/// `text` as one word of a shell.
std::string shell_word(const std::string& text) {
  constexpr std::string_view plain =
      "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-+./:=,%";
  if (!text.empty() && text.find_first_not_of(plain) == std::string::npos) return text;
  std::string word = "'";
  for (const char letter : text) word += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
  return word + "'";
}

std::string stamp_option(Stamp stamp) {
  return stamp == Stamp::start ? "start" : stamp == Stamp::end ? "end" : "instant";
}

std::string column_option(const std::string& name, const ColumnMapping& mapping) {
  const std::string& detail = mapping.format.empty() ? mapping.unit : mapping.format;
  std::string option = "--column " + shell_word(name + "=" + mapping.column +
                                                (detail.empty() ? std::string{} : "::" + detail));
  for (const std::string& code : mapping.missing) option += " --missing " + shell_word(name + "=" + code);
  return option;
}

std::string add_command(const std::string& file, const SourceSettings& source) {
  std::string command = "graftcast weather add";
  if (!source.reader.empty()) command += " --reader " + shell_word(source.reader);
  if (source.stamp) command += " --stamp " + stamp_option(*source.stamp);
  if (!source.time_zone.empty()) command += " --time-zone " + shell_word(source.time_zone);
  if (source.wind_height_m) command += fmt::format(" --wind-height {:g}", *source.wind_height_m);
  if (source.as_forecast) command += " --as forecast";
  if (source.made_at) command += " --made-at " + utc_text(*source.made_at);
  for (const auto& [name, mapping] : source.columns) command += " " + column_option(name, mapping);
  return command + " " + shell_word(file);
}

struct FileProposal {
  std::string file;
  ColumnProposal proposal;
  std::string command;
  Json entry;
};

FileProposal proposal_of(const std::string& file, const SourceSettings& given, const OpenSite& open) {
  FileProposal each{file, propose_columns(file, given, open.site.location, open.clock), {}, {}};
  each.command = add_command(file, each.proposal.source);
  SourceSettings source = each.proposal.source;
  source.file = (std::filesystem::path("weather") / std::filesystem::path(file).filename()).generic_string();
  each.entry = source_entry(source);
  return each;
}

Json proposal_json(const FileProposal& each) {
  Json columns = Json::array();
  for (const ProposedColumn& column : each.proposal.columns)
    columns.push_back(
        {{"name", column.name}, {"header", column.header}, {"how", column.how}, {"reason", column.reason}});
  return {{"file", each.file},
          {"reader", each.proposal.reader},
          {"columns", std::move(columns)},
          {"settings", each.proposal.settings},
          {"left_out", each.proposal.left_out},
          {"doubts", each.proposal.doubts},
          {"rows", each.proposal.summary.rows},
          {"from", utc_text(each.proposal.summary.first)},
          {"to", utc_text(each.proposal.summary.last)},
          {"command", each.command},
          {"entry", each.entry}};
}

/// The command and the entry stay whole, for copying: they are not broken into lines.
std::string column_words(const ProposedColumn& column) {
  if (column.how.empty())
    return tr("{name} from \"{header}\": {reason}", "name"_a = column.name, "header"_a = column.header,
              "reason"_a = column.reason);
  return tr("{name} from \"{header}\" as {how}: {reason}", "name"_a = column.name, "header"_a = column.header,
            "how"_a = column.how, "reason"_a = column.reason);
}

std::string proposal_text(const FileProposal& each, const Clock& clock, const TerminalStyle& style) {
  const ColumnProposal& proposal = each.proposal;
  std::string text = labelled(style, Tone::strong, trc("label", "file"),
                              printable(read_words(each.file, proposal.reader, proposal.summary, clock)));
  if (proposal.columns.empty())
    text +=
        labelled(style, Tone::quiet, trc("label", "map"), tr("none is needed: the file names what it holds"));
  for (const ProposedColumn& column : proposal.columns)
    text += labelled(style, Tone::quiet, trc("label", "read"), printable(column_words(column)));
  for (const std::string& setting : proposal.settings)
    text += labelled(style, Tone::quiet, trc("label", "set"), printable(setting));
  for (const std::string& left : proposal.left_out)
    text += labelled(style, Tone::quiet, trc("label", "leave"), printable(left));
  for (const std::string& doubt : proposal.doubts)
    text += labelled(style, Tone::attentive, trc("label", "check"), printable(doubt));
  return fmt::format("{}\n{}\n{}\n\n{}\n{}\n", text, tr("The command that adds it:"), printable(each.command),
                     tr("The entry it makes in site.json:"), printable(each.entry.dump()));
}

}  // namespace

std::string read_words(const std::string& file, const std::string& reader, const WeatherFileSummary& summary,
                       const Clock& clock) {
  const auto count = static_cast<long>(summary.rows);
  const std::string first = clock.local_text(summary.first), last = clock.local_text(summary.last);
  if (summary.daily)
    return trn("{file} ({reader}): {count} day from {first} to {last}",
               "{file} ({reader}): {count} days from {first} to {last}", count, "file"_a = file,
               "reader"_a = reader, "count"_a = count, "first"_a = first, "last"_a = last);
  return trn("{file} ({reader}): {count} row from {first} to {last}",
             "{file} ({reader}): {count} rows from {first} to {last}", count, "file"_a = file,
             "reader"_a = reader, "count"_a = count, "first"_a = first, "last"_a = last);
}

Answer propose(const std::vector<std::string>& files, const SourceSettings& given, const OpenSite& open,
               const GlobalOptions& global) {
  std::vector<FileProposal> proposals;
  for (const std::string& file : files) proposals.push_back(proposal_of(file, given, open));
  const ReportBasis basis = basis_of("weather add", open, global);
  const auto json = [&] {
    auto answer = basis_json(basis);
    answer["proposals"] = Json::array();
    for (const FileProposal& each : proposals) answer["proposals"].push_back(proposal_json(each));
    return answer;
  };
  return answered(global, basis, json, [&] {
    std::string text;
    for (const FileProposal& each : proposals)
      text += (text.empty() ? "" : "\n") + proposal_text(each, open.clock, style_of(global));
    return finished(style_of(global), text);
  });
}

}  // namespace graftcast::cli
