#pragma once
// Checks the structure of an HTML page: elements nest, ids are unique, nothing is loaded from elsewhere. End
// tags that HTML (WHATWG HTML Living Standard, section Optional tags; recalled) lets go may be absent.

#include <algorithm>
#include <array>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace graftcast::testing {

class HtmlCheck {
 public:
  explicit HtmlCheck(std::string_view html) : html_(html) { run(); }

  const std::vector<std::string>& complaints() const { return complaints_; }
  const std::set<std::string>& ids() const { return ids_; }
  /// How many elements of this name begin.
  std::size_t count(std::string_view element) const {
    return static_cast<std::size_t>(std::count(begun_.begin(), begun_.end(), element));
  }

 private:
  void run() {
    for (std::size_t at = html_.find('<'); at != std::string_view::npos; at = html_.find('<', at + 1)) {
      if (html_.substr(at).starts_with("<!DOCTYPE html>")) continue;
      at = tag(at);
    }
    while (!open_.empty() && may_stay_open(open_.back())) open_.pop_back();
    if (!open_.empty()) complaints_.push_back("never closed: " + open_.back());
    for (const std::string& target : targets_)
      if (!ids_.contains(target)) complaints_.push_back("nothing has the id " + target);
  }

  /// Reads the tag at `at`; gives where it ends.
  std::size_t tag(std::size_t at) {
    const bool closing = html_.substr(at + 1).starts_with('/');
    std::size_t end = at + (closing ? 2 : 1);
    std::string name;
    while (end < html_.size() && is_name(html_[end])) name += html_[end++];
    if (name.empty()) complaints_.push_back("a bare < at " + std::to_string(at));
    end = attributes(end);
    if (closing)
      close(name);
    else
      begin(name, end > 0 && html_[end - 1] == '/');
    // What is within them is no markup.
    if (!closing && (name == "style" || name == "script")) return html_.find("</" + name, end) - 1;
    return end;
  }

  std::size_t attributes(std::size_t at) {
    while (at < html_.size() && html_[at] != '>') {
      if (html_[at] != '"') {
        ++at;
        continue;
      }
      const std::size_t close = html_.find('"', at + 1);
      std::size_t name_from = at - 1;
      while (is_name(html_[name_from - 1]) || html_[name_from - 1] == '-') --name_from;
      attribute(std::string(html_.substr(name_from, at - 1 - name_from)),
                std::string(html_.substr(at + 1, close - at - 1)));
      at = close + 1;
    }
    return at;
  }

  void attribute(const std::string& name, const std::string& value) {
    if (name == "id" && !ids_.insert(value).second) complaints_.push_back("twice the id " + value);
    if (name == "href" && !value.starts_with('#')) complaints_.push_back("leads elsewhere: " + value);
    if (name == "src" || name == "srcset" || name == "action" || name == "style" || name.starts_with("on"))
      complaints_.push_back("has the attribute " + name);
    if (name == "href" && value.starts_with('#')) targets_.push_back(value.substr(1));
    if (name == "for" || name == "aria-labelledby") targets_.push_back(value);
    if (value.find('<') != std::string::npos) complaints_.push_back("markup within " + name);
  }

  void begin(const std::string& name, bool is_empty) {
    begun_.push_back(name);
    if (is_empty || name == "meta" || name == "input" || name == "br") return;
    const auto ends = [&](std::string_view other) {
      if (name == "tr") return other == "td" || other == "th" || other == "tr";
      if (name == "td" || name == "th") return other == "td" || other == "th";
      if (name == "tbody") return other != "table" && may_stay_open(std::string(other));
      return name == "li" && other == "li";
    };
    while (!open_.empty() && ends(open_.back())) open_.pop_back();
    open_.push_back(name);
  }

  void close(const std::string& name) {
    while (!open_.empty() && open_.back() != name && may_stay_open(open_.back())) open_.pop_back();
    if (open_.empty() || open_.back() != name)
      complaints_.push_back("closed but not open: " + name);
    else
      open_.pop_back();
  }

  static bool may_stay_open(const std::string& name) {
    constexpr std::array<std::string_view, 6> words{"td", "th", "tr", "tbody", "thead", "li"};
    return std::find(words.begin(), words.end(), name) != words.end();
  }

  static bool is_name(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
  }

  std::string_view html_;
  std::vector<std::string> open_, begun_, complaints_, targets_;
  std::set<std::string> ids_;
};

}  // namespace graftcast::testing
