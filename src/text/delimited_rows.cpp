#include "text/delimited_rows.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "line_source.hpp"
#include "row_splitter.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr std::size_t longest_row_bytes = 1U << 20U;

// The most frequent of comma, semicolon and tab outside quotes; a comma when there is none.
char delimiter_of(std::string_view line) {
  constexpr std::array candidates{',', ';', '\t'};
  std::array<std::size_t, candidates.size()> counts{};
  bool quoted = false;
  for (const char letter : line) {
    if (letter == '"') quoted = !quoted;
    for (std::size_t k = 0; k < candidates.size(); ++k) {
      if (!quoted && letter == candidates[k]) ++counts[k];
    }
  }
  return candidates[static_cast<std::size_t>(std::max_element(counts.begin(), counts.end()) -
                                             counts.begin())];
}

}  // namespace

struct DelimitedRows::State {
  State(std::unique_ptr<io::ByteSourceBase> source, char given_delimiter, std::string shown_name)
      : name(std::move(shown_name)), lines(name, std::move(source)), delimiter(given_delimiter) {
    if (delimiter == 0) choose_delimiter();
  }

  std::string name;
  io::LineReader lines;
  char delimiter;
  RowSplitter splitter;
  std::string joined;  // The row's text when it spans several lines.
  std::string_view raw;
  std::size_t line = 0;
  std::optional<std::string_view> pending;  // A line looked at in advance.

  std::optional<std::string_view> take_line();
  DataError too_long() const;
  void choose_delimiter();
  void complete_row();
  bool next_row();
  Position position_at(std::size_t offset) const;
};

DataError DelimitedRows::State::too_long() const {
  return {{name, lines.get_file_line(), 1},
          tr("the line is longer than a mebibyte"),
          tr("check that this is a table of text")};
}

// The next line without its end. LineReader's own error (a line above 16 MiB) becomes ours here.
std::optional<std::string_view> DelimitedRows::State::take_line() {
  if (pending) return std::exchange(pending, std::nullopt);
  const char* begin = nullptr;
  try {
    begin = lines.next_line();
  } catch (const io::error::line_length_limit_exceeded&) {
    throw too_long();
  }
  if (begin == nullptr) return std::nullopt;
  const std::string_view text(begin);
  if (text.size() > longest_row_bytes) throw too_long();
  return text;
}

void DelimitedRows::State::choose_delimiter() {
  delimiter = ',';
  while (auto text = take_line()) {
    if (trimmed(*text).empty()) continue;
    delimiter = delimiter_of(*text);
    pending = text;
    return;
  }
}

// Adds the lines that a quoted field of the row runs on to.
void DelimitedRows::State::complete_row() {
  QuoteScan scan(delimiter);
  scan.pass(raw);
  if (!scan.is_open()) return;
  joined = raw;
  while (scan.is_open()) {
    const auto more = take_line();
    if (!more || joined.size() + more->size() > longest_row_bytes) {
      raw = joined;
      throw DataError(position_at(scan.opening_offset()),
                      tr("a quoted field begins here and is never closed"),
                      tr("close it with a quotation mark"));
    }
    joined += '\n';
    joined += *more;
    scan.pass("\n");
    scan.pass(*more);
  }
  raw = joined;
}

bool DelimitedRows::State::next_row() {
  while (const auto text = take_line()) {
    if (trimmed(*text).empty()) continue;
    raw = *text;
    line = lines.get_file_line();
    if (raw.find('"') != std::string_view::npos) complete_row();
    if (const auto fault = splitter.split(raw, delimiter)) {
      throw DataError(position_at(fault->offset), fault->message, fault->hint);
    }
    return true;
  }
  return false;
}

Position DelimitedRows::State::position_at(std::size_t offset) const {
  const std::string_view before = raw.substr(0, offset);
  const auto breaks = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
  const std::size_t last_break = before.rfind('\n');
  return {name, line + breaks, last_break == std::string_view::npos ? offset + 1 : offset - last_break};
}

DelimitedRows::DelimitedRows(std::unique_ptr<State> state) : state_(std::move(state)) {}

DelimitedRows::DelimitedRows(const std::filesystem::path& path, char delimiter, std::string shown_name) {
  if (shown_name.empty()) shown_name = path.string();
  auto source = file_source(path, shown_name);
  state_ = std::make_unique<State>(std::move(source), delimiter, std::move(shown_name));
}

DelimitedRows DelimitedRows::from_memory(std::string_view text, char delimiter, std::string shown_name) {
  auto source = memory_source(text, shown_name);
  return DelimitedRows(std::make_unique<State>(std::move(source), delimiter, std::move(shown_name)));
}

DelimitedRows::~DelimitedRows() = default;
DelimitedRows::DelimitedRows(DelimitedRows&&) noexcept = default;
DelimitedRows& DelimitedRows::operator=(DelimitedRows&&) noexcept = default;

bool DelimitedRows::next() {
  return state_->next_row();
}
const std::vector<Field>& DelimitedRows::fields() const {
  return state_->splitter.fields();
}
std::string_view DelimitedRows::raw() const {
  return state_->raw;
}
std::size_t DelimitedRows::line() const {
  return state_->line;
}
char DelimitedRows::delimiter() const {
  return state_->delimiter;
}
const std::string& DelimitedRows::name() const {
  return state_->name;
}

Position DelimitedRows::position(std::size_t index) const {
  const auto& offsets = state_->splitter.offsets();
  return state_->position_at(index < offsets.size() ? offsets[index] : state_->raw.size());
}

std::string quoted_field(std::string_view text) {
  const bool has_outer_blank = trimmed(text).size() != text.size();
  if (!has_outer_blank && text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string quoted = "\"";
  for (const char letter : text) {
    if (letter == '"') quoted += '"';
    quoted += letter;
  }
  quoted += '"';
  return quoted;
}

}  // namespace graftcast
