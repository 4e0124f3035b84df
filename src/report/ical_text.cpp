// Calendars in RFC 5545: written and read back by libical.

#include <algorithm>
#include <cstdlib>
#include <memory>

#include <libical/ical.h>

#include "graftcast/error.hpp"
#include "report/calendar_report.hpp"
#include "report/terminal_style.hpp"
#include "report/text_layout.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr const char* product_id = "-//graftcast//graftcast//EN";

using Component = std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)>;

icaltimetype utc_time(Instant instant) {
  return icaltime_from_timet_with_zone(static_cast<time_t>(instant.time_since_epoch().count()), 0,
                                       icaltimezone_get_utc_timezone());
}

icaltimetype date_of(LocalDay day) {
  const std::chrono::year_month_day date{day};
  icaltimetype time = icaltime_null_date();
  time.year = static_cast<int>(date.year());
  time.month = static_cast<int>(static_cast<unsigned>(date.month()));
  time.day = static_cast<int>(static_cast<unsigned>(date.day()));
  return time;
}

int sequence_of(Instant as_of) {
  return static_cast<int>(std::chrono::floor<std::chrono::minutes>(as_of.time_since_epoch()).count());
}

void add(icalcomponent* component, icalproperty* property) {
  icalcomponent_add_property(component, property);
}

/// For programs that do not know RFC 7986's NAME. libical escapes no commas and semicolons in a property of
/// this kind, so none may be in it.
void add_common_name(icalcomponent* calendar, std::string name) {
  std::ranges::replace_if(
      name, [](char letter) { return letter == ',' || letter == ';'; }, ' ');
  icalproperty* property = icalproperty_new_x(name.c_str());
  icalproperty_set_x_name(property, "X-WR-CALNAME");
  add(calendar, property);
}

void add_times(icalcomponent* event, const CalendarEvent& source) {
  add(event, icalproperty_new_dtstart(source.day ? date_of(*source.day) : utc_time(*source.from)));
  add(event, icalproperty_new_dtend(source.day ? date_of(*source.day + std::chrono::days(1))
                                               : utc_time(*source.to)));
  // A day of expectation shall not make anybody look busy.
  add(event, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
}

icalcomponent* alarm_of(const CalendarEvent& source) {
  icalcomponent* alarm = icalcomponent_new(ICAL_VALARM_COMPONENT);
  add(alarm, icalproperty_new_action(ICAL_ACTION_DISPLAY));
  add(alarm, icalproperty_new_description(source.title.c_str()));
  icaltriggertype trigger{};
  trigger.time = utc_time(*source.alarm);
  trigger.duration = icaldurationtype_null_duration();
  icalproperty* property = icalproperty_new_trigger(trigger);
  icalproperty_set_parameter(property, icalparameter_new_value(ICAL_VALUE_DATETIME));
  add(alarm, property);
  return alarm;
}

icalcomponent* event_of(const CalendarEvent& source, Instant as_of) {
  icalcomponent* event = icalcomponent_new(ICAL_VEVENT_COMPONENT);
  add(event, icalproperty_new_uid(source.uid.c_str()));
  add(event, icalproperty_new_dtstamp(utc_time(as_of)));
  add(event, icalproperty_new_sequence(sequence_of(as_of)));
  add(event, icalproperty_new_status(source.withdrawn ? ICAL_STATUS_CANCELLED : ICAL_STATUS_CONFIRMED));
  add_times(event, source);
  add(event, icalproperty_new_summary(source.title.c_str()));
  if (!source.description.empty())
    add(event, icalproperty_new_description(with_unit_signs(source.description).c_str()));
  if (!source.spot.empty()) add(event, icalproperty_new_location(source.spot.c_str()));
  add(event, icalproperty_new_categories(source.kind.c_str()));
  if (source.alarm && !source.withdrawn) icalcomponent_add_component(event, alarm_of(source));
  return event;
}

std::string text_of(icalcomponent* component) {
  const std::unique_ptr<char, decltype(&std::free)> text(icalcomponent_as_ical_string_r(component),
                                                         &std::free);
  return text ? std::string(text.get()) : std::string{};
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : "\n") + line;
  return text;
}

[[noreturn]] void refuse(const std::string& shown_name, const std::string& what) {
  throw DataError({shown_name, 0, 0}, what, tr("name another file with -o, or remove this one first"));
}

Component parsed_calendar(std::string_view text, const std::string& shown_name) {
  icalerror_set_errors_are_fatal(0);  // A broken file is an error of ours, not the end of the process.
  Component calendar(icalcomponent_new_from_string(std::string(text).c_str()), &icalcomponent_free);
  if (!calendar || icalcomponent_isa(calendar.get()) != ICAL_VCALENDAR_COMPONENT)
    refuse(shown_name, tr("this is no calendar, and it is not overwritten"));
  const icalproperty* product = icalcomponent_get_first_property(calendar.get(), ICAL_PRODID_PROPERTY);
  const char* id = product == nullptr ? nullptr : icalproperty_get_prodid(product);
  if (id == nullptr || std::string_view(id) != product_id)
    refuse(shown_name, tr("this calendar was written by another program, and it is not overwritten"));
  return calendar;
}

std::string or_empty(const char* text) {
  return text == nullptr ? std::string{} : std::string(text);
}

Instant instant_of(icaltimetype time) {
  return Instant(std::chrono::seconds(icaltime_as_timet(time)));
}

LocalDay day_of_date(icaltimetype time) {
  return LocalDay(std::chrono::year(time.year) / std::chrono::month(static_cast<unsigned>(time.month)) /
                  std::chrono::day(static_cast<unsigned>(time.day)));
}

CalendarEvent read_event(icalcomponent* event, const std::string& mark, const std::string& shown_name) {
  CalendarEvent read;
  read.uid = or_empty(icalcomponent_get_uid(event));
  const std::size_t dot = read.uid.find('.', mark.size() + 1);
  if (!read.uid.starts_with(mark + '.') || dot == std::string::npos)
    refuse(shown_name, tr("this is another site's calendar, and it is not overwritten"));
  read.kind = read.uid.substr(mark.size() + 1, dot - mark.size() - 1);
  read.graft = read.uid.substr(dot + 1);
  read.title = or_empty(icalcomponent_get_summary(event));
  read.description = or_empty(icalcomponent_get_description(event));
  read.spot = or_empty(icalcomponent_get_location(event));
  const icaltimetype start = icalcomponent_get_dtstart(event);
  if (icaltime_is_null_time(start)) refuse(shown_name, tr("an event of this calendar has no time"));
  if (start.is_date) {
    read.day = day_of_date(start);
  } else {
    read.from = instant_of(start);
    read.to = instant_of(icalcomponent_get_dtend(event));
  }
  read.withdrawn = true;
  return read;
}

bool is_over(const CalendarEvent& event, const Clock& clock, Instant as_of) {
  return event.day ? *event.day < clock.day_of(as_of) : *event.to < as_of;
}

}  // namespace

std::string ical_text(const std::vector<CalendarEvent>& events, const ReportBasis& basis) {
  const Component calendar(icalcomponent_new(ICAL_VCALENDAR_COMPONENT), &icalcomponent_free);
  add(calendar.get(), icalproperty_new_prodid(product_id));
  add(calendar.get(), icalproperty_new_version("2.0"));
  add(calendar.get(), icalproperty_new_calscale("GREGORIAN"));
  const std::string name = tr("Grafts: {site}", "site"_a = printable(basis.site));
  add(calendar.get(), icalproperty_new_name(name.c_str()));
  add_common_name(calendar.get(), name);
  if (!basis.cautions.empty())
    add(calendar.get(), icalproperty_new_description(with_unit_signs(joined(basis.cautions)).c_str()));
  for (const CalendarEvent& event : events)
    icalcomponent_add_component(calendar.get(), event_of(event, basis.as_of));
  return text_of(calendar.get());
}

std::vector<CalendarEvent> withdrawn_events(std::string_view text, const std::string& shown_name,
                                            const std::string& mark, const std::vector<CalendarEvent>& events,
                                            const Clock& clock, Instant as_of) {
  const Component calendar = parsed_calendar(text, shown_name);
  std::vector<CalendarEvent> withdrawn;
  for (icalcomponent* one = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT);
       one != nullptr; one = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT)) {
    CalendarEvent event = read_event(one, mark, shown_name);
    if (is_over(event, clock, as_of)) continue;
    if (std::ranges::find(events, event.uid, &CalendarEvent::uid) == events.end())
      withdrawn.push_back(std::move(event));
  }
  return withdrawn;
}

}  // namespace graftcast
