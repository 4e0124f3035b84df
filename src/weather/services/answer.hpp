#pragma once
// A service's answer as JSON (private to the layer).

#include <cmath>
#include <limits>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "graftcast/calendar_time.hpp"
#include "text/tr.hpp"

namespace graftcast {

/// Parsed without the places of its values, since an answer may hold a million of them; only a fault costs a
/// second look to find its place. The text must outlive it.
class Answer {
 public:
  /// Errors: DataError when the text is not JSON (it says so of HTML and of a body cut off), or is nested too
  /// deep.
  Answer(std::string_view text, std::string name);

  const nlohmann::json& root() const { return root_; }
  const std::string& name() const { return name_; }

  /// The value at JSON pointer `pointer`, or null pointer.
  const nlohmann::json* find(const std::string& pointer) const;
  /// The object or array there. Error: DataError when it is not there or is something else.
  const nlohmann::json& object_at(const std::string& pointer) const;
  const nlohmann::json& array_at(const std::string& pointer) const;
  std::string text_at(const std::string& pointer) const;
  /// An ISO time with its offset.
  Instant time_at(const std::string& pointer) const;

  /// The number, or NaN for null. `place` gives the pointer and is called only for a fault.
  template <class Place>
  double number_or_none(const nlohmann::json& value, Place place) const {
    if (value.is_null()) return std::numeric_limits<double>::quiet_NaN();
    if (!value.is_number()) fail(place(), tr("not a number"), tr("a number or null"));
    return value.get<double>();
  }

  /// Throws DataError at the place of `pointer`.
  [[noreturn]] void fail(const std::string& pointer, std::string message, std::string hint = {}) const;

 private:
  std::string_view text_;
  std::string name_;
  nlohmann::json root_;
};

}  // namespace graftcast
