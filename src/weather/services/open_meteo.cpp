// Open-Meteo: one constant offset from UTC, stamps that end the hour for sums and means, members of an
// ensemble.

#include <algorithm>
#include <cmath>
#include <map>

#include "services/finish_answer.hpp"
#include "services/open_meteo_table.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/forecast_services.hpp"

namespace graftcast {

namespace {

using Stands = OpenMeteoVariable::Stamp;

/// Columns of one course, with the section each stands in.
struct CourseColumn {
  const OpenMeteoSection* section;
  OpenMeteoColumn column;
};
using Course = std::vector<CourseColumn>;

/// The distance of the stamps: an hour, or three where they were asked for.
std::chrono::seconds step_of(const OpenMeteoSection& section) {
  if (section.time.size() < 2) return std::chrono::hours(1);
  return std::min(section.time[1] - section.time[0], std::chrono::seconds(std::chrono::hours(6)));
}

Span span_of(Stands stamp, Instant time, std::chrono::seconds step) {
  if (stamp == Stands::day) return {time, time + std::chrono::hours(24)};
  return {stamp == Stands::at ? time : time - step, time};
}

std::vector<Span> spans_of(Stands stamp, const OpenMeteoSection& section) {
  std::vector<Span> spans;
  spans.reserve(section.time.size());
  const std::chrono::seconds step = step_of(section);
  for (const Instant time : section.time) spans.push_back(span_of(stamp, time, step));
  return spans;
}

bool has_quantity(const Block& block, const AnswerField& field) {
  return std::ranges::any_of(block.channels, [&](const Channel& channel) {
    return channel.quantity == field.quantity && channel.kind == field.kind;
  });
}

/// The columns of a course in blocks of equal stamps. Of two columns for one quantity, such as pressure here
/// and at sea level, the first in the table of variables counts.
std::vector<Block> blocks_of(Course course, NoteBook& notes) {
  std::ranges::stable_sort(course, {}, [](const CourseColumn& each) { return each.column.name.variable; });
  std::vector<Block> blocks;
  for (const Stands stamp : {Stands::at, Stands::hour_before, Stands::day}) {
    Block block;
    for (const CourseColumn& each : course) {
      if (each.column.name.variable->stamp != stamp || has_quantity(block, each.column.field)) continue;
      if (block.spans.empty()) block.spans = spans_of(stamp, *each.section);
      add_channel(block, each.column.field, each.column.value, notes);
    }
    if (!block.channels.empty()) blocks.push_back(std::move(block));
  }
  return blocks;
}

/// Mean of the courses' values of each variable, of those that have one.
Course mean_of(const std::map<std::string, Course>& courses) {
  std::map<const OpenMeteoVariable*, std::pair<CourseColumn, std::vector<double>>> sums;
  for (const auto& [member, course] : courses) {
    for (const CourseColumn& each : course) {
      auto& [sum, count] =
          sums.try_emplace(each.column.name.variable, each, std::vector<double>()).first->second;
      if (count.empty()) {
        count.assign(each.column.value.size(), 0);
        std::ranges::fill(sum.column.value, 0);
      }
      for (std::size_t k = 0; k < count.size(); ++k) {
        if (std::isnan(each.column.value[k])) continue;
        sum.column.value[k] += each.column.value[k];
        ++count[k];
      }
    }
  }
  Course mean;
  for (auto& [variable, entry] : sums) {
    auto& [sum, count] = entry;
    for (std::size_t k = 0; k < count.size(); ++k) sum.column.value[k] /= count[k];  // 0/0 is NaN: missing.
    mean.push_back(std::move(sum));
  }
  return mean;
}

/// The control run; of several models the first one's; nothing where there is none.
std::map<std::string, Course>::iterator control_of(std::map<std::string, Course>& courses) {
  return std::ranges::find_if(
      courses, [](const auto& entry) { return entry.first.empty() || entry.first.front() == '_'; });
}

std::map<std::string, Course> courses_of(OpenMeteoTable& table) {
  std::map<std::string, Course> courses;
  for (OpenMeteoSection& section : table.sections) {
    for (OpenMeteoColumn& column : section.columns) {
      const std::string member = column.name.member;
      courses[member].push_back({&section, std::move(column)});
    }
  }
  return courses;
}

bool is_json(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  text = trimmed(text);
  return text.empty() || std::string_view("{[<").find(text.front()) != std::string_view::npos;
}

}  // namespace

ServiceAnswer read_open_meteo(std::string_view text, const Location& location, const AnswerOrigin& origin,
                              bool is_forecast) {
  NoteBook notes(origin.name);
  OpenMeteoTable table =
      is_json(text) ? open_meteo_json(text, location, origin) : open_meteo_csv(text, location, origin, notes);
  std::map<std::string, Course> courses = courses_of(table);
  ServiceAnswer result;
  result.place = table.place;
  if (const auto control = control_of(courses); control != courses.end()) {
    result.readings.blocks = blocks_of(std::move(control->second), notes);
    courses.erase(control);
  } else if (!courses.empty()) {
    result.readings.blocks = blocks_of(mean_of(courses), notes);
    notes.count("ensemble-mean", tr("the answer has no control run; the mean of its members stands for it"));
  }
  for (auto& [member, course] : courses) {
    Readings readings;
    readings.blocks = blocks_of(std::move(course), notes);
    if (!readings.blocks.empty()) result.members.push_back(std::move(readings));
  }
  finish_answer(result, is_forecast ? Service::open_meteo : Service::open_meteo_archive, origin, notes);
  return result;
}

}  // namespace graftcast
