#include "table_text.hpp"

#include <algorithm>
#include <fstream>
#include <utility>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/delimited_rows.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr std::string_view utf8_mark = "\xEF\xBB\xBF";

// read_text_file takes the mark away; a spreadsheet that wrote it needs it to show letters beyond ASCII.
std::string text_with_mark(const std::filesystem::path& file) {
  const std::string text = read_text_file(file);
  std::string mark(utf8_mark.size(), '\0');
  std::ifstream(file, std::ios::binary).read(mark.data(), static_cast<std::streamsize>(mark.size()));
  return mark == utf8_mark ? mark + text : text;
}

// Where the field that begins at `begin` ends.
std::size_t field_end(std::string_view row, std::size_t begin) {
  bool quoted = begin < row.size() && row[begin] == '"';
  for (std::size_t at = begin + (quoted ? 1 : 0); at < row.size(); ++at) {
    if (row[at] == '"')
      quoted = !quoted && row[begin] == '"';
    else if (row[at] == ',' && !quoted)
      return at;
  }
  return row.size();
}

std::string joined(const std::vector<std::string>& columns, const Cells& cells) {
  std::string line;
  for (std::size_t k = 0; k < columns.size(); ++k) {
    if (k > 0) line += ',';
    const auto cell = cells.find(columns[k]);
    if (cell != cells.end()) line += quoted_field(cell->second);
  }
  return line;
}

}  // namespace

std::string with_field(std::string_view row, std::size_t index, std::string_view value) {
  std::size_t begin = 0;
  for (; index > 0; --index) begin = field_end(row, begin) + 1;
  const std::size_t end = field_end(row, begin);
  return std::string(row.substr(0, begin)) + quoted_field(value) + std::string(row.substr(end));
}

void require_columns(const TableText& table, const Cells& cells, std::span<const std::string> known) {
  std::vector<std::string> usable(known.begin(), known.end());
  usable.insert(usable.end(), table.columns().begin(), table.columns().end());
  for (const auto& [column, text] : cells) {
    if (std::find(usable.begin(), usable.end(), column) != usable.end()) continue;
    throw UsageError(tr("there is no column {column}", "column"_a = shown(column)),
                     nearest_hint(column, usable));
  }
}

void throw_error_of_added(const DataError& error, std::size_t line_count) {
  if (error.position().line <= line_count) throw error;
  throw DataError({}, error.message(), error.hint());
}

TableText TableText::open(const std::filesystem::path& file, std::span<const std::string> columns) {
  if (!std::filesystem::exists(file)) return {fmt::format("{}\n", fmt::join(columns, ",")), file.string()};
  return {text_with_mark(file), file.string()};
}

TableText::TableText(std::string text, std::string name) : text_(std::move(text)), name_(std::move(name)) {
  DelimitedRows reader = DelimitedRows::from_memory(text_, ',', name_);
  if (reader.next()) {
    for (const Field& field : reader.fields()) columns_.emplace_back(trimmed(field.text));
  }
  const std::size_t first_break = text_.find('\n');
  const bool has_return =
      first_break != std::string::npos && first_break > 0 && text_[first_break - 1] == '\r';
  line_end_ = has_return ? "\r\n" : "\n";
}

std::size_t TableText::line_count() const {
  const auto breaks = static_cast<std::size_t>(std::count(text_.begin(), text_.end(), '\n'));
  return breaks + (text_.empty() || text_.back() == '\n' ? 0 : 1);
}

void TableText::append(const Cells& cells) {
  for (const auto& [column, value] : cells) {
    // Once in the file it would keep every command from reading it.
    if (!is_utf8(value))
      throw UsageError(tr("{column} {value} is not UTF-8", "column"_a = column, "value"_a = shown(value)),
                       tr("write it in UTF-8"));
    if (std::find(columns_.begin(), columns_.end(), column) == columns_.end()) add_column(column);
  }
  append_line(joined(columns_, cells));
}

void TableText::append_copy(std::size_t line, const Cells& changes) {
  const Row row = row_at(line);
  std::string copy = text_.substr(row.begin, row.end - row.begin);
  for (const auto& [column, value] : changes) copy = with_field(copy, index_of(column), value);
  append_line(copy);
}

void TableText::set_cell(std::size_t line, std::string_view column, std::string_view value) {
  const Row row = row_at(line);
  const std::string changed =
      with_field(std::string_view(text_).substr(row.begin, row.end - row.begin), index_of(column), value);
  text_.replace(row.begin, row.end - row.begin, changed);
}

// The reader knows on which line a row begins and how many lines it spans; the bytes follow from the line
// ends.
std::vector<TableText::Row> TableText::rows() const {
  std::vector<std::size_t> line_begins{text_.starts_with(utf8_mark) ? utf8_mark.size() : 0};
  for (std::size_t at = text_.find('\n'); at != std::string::npos; at = text_.find('\n', at + 1)) {
    line_begins.push_back(at + 1);
  }
  std::vector<Row> result;
  DelimitedRows reader = DelimitedRows::from_memory(text_, ',', name_);
  while (reader.next()) {
    const std::string_view raw = reader.raw();
    const std::size_t next_line =
        reader.line() + 1 + static_cast<std::size_t>(std::count(raw.begin(), raw.end(), '\n'));
    std::size_t end = next_line <= line_begins.size() ? line_begins[next_line - 1] - 1 : text_.size();
    if (end > 0 && text_[end - 1] == '\r') --end;
    result.push_back({reader.line(), line_begins[reader.line() - 1], end});
  }
  return result;
}

TableText::Row TableText::row_at(std::size_t line) const {
  const std::vector<Row> all = rows();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Row& row) { return row.line == line; });
  if (found == all.end()) throw DataError({name_, line, 0}, tr("no row begins here"));
  return *found;
}

std::size_t TableText::index_of(std::string_view column) const {
  const auto found = std::find(columns_.begin(), columns_.end(), column);
  if (found == columns_.end())
    throw DataError({name_, 1, 0}, tr("the column {column} is missing", "column"_a = column));
  return static_cast<std::size_t>(found - columns_.begin());
}

void TableText::add_missing_columns(std::span<const std::string> columns) {
  for (const std::string& column : columns)
    if (std::ranges::find(columns_, column) == columns_.end()) add_column(column);
}

void TableText::add_column(const std::string& name) {
  const std::vector<Row> all = rows();
  std::string widened;
  std::size_t copied = 0;
  for (std::size_t k = 0; k < all.size(); ++k) {
    widened +=
        text_.substr(copied, all[k].end - copied) + ',' + (k == 0 ? quoted_field(name) : std::string());
    copied = all[k].end;
  }
  text_ = widened + text_.substr(copied);
  columns_.push_back(name);
}

void TableText::append_line(std::string_view line) {
  if (!text_.empty() && text_.back() != '\n') text_ += line_end_;
  text_ += line;
  text_ += line_end_;
}

}  // namespace graftcast
