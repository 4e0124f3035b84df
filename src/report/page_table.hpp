#pragma once
// A table under a chart (private to the layer).

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "page_days.hpp"

namespace graftcast {

/// Cells of a day after the day itself.
using DayCells = std::function<std::vector<std::string>(const ChartDay&)>;

struct TableTitle {
  std::string name, caption;
};
/// A table that is closed until it is asked for, up to the first of its rows. End tags that HTML does not ask
/// for are left out: a page has thousands of rows.
std::string table_opening(const TableTitle& title, std::span<const std::string> heads);

/// The whole table: a row a day, those ahead under a heading of their own.
std::string day_table(const std::string& name, std::span<const std::string> heads,
                      std::span<const ChartDay> days, LocalDay today, const DayCells& cells);

/// `Wed 18 Jun`; with `3 days to ` before it where it stands for as many.
std::string column_words(const ChartDay& day, LocalDay today);

/// The flags of a day among `shown`, as words.
std::string flag_words(const ChartDay& day, std::span<const DayFlag> shown);

}  // namespace graftcast
