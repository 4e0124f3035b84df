#pragma once
// The hours behind the charts, as the page's script reads them (private to the layer).

#include <map>
#include <span>
#include <string>
#include <vector>

#include "page_days.hpp"
#include "page_sections.hpp"

namespace graftcast {

/// Whole numbers as text that may stand in an attribute, each told by its step from the one before (the first
/// from 0). The signs are those from `#` to `~` without quotes, `&`, `<` and `>`, numbered from 0:
///
///     0 to 60    a step of -30 to 30
///     61 to 86   no step, 2 to 27 times
///     87         the next two signs a and b: a step of 61 a + b - 1860; longer steps are cut to that
std::string packed_numbers(std::span<const int> numbers);

/// What the script needs to read out hours: series that several cards share are told once.
class PageHours {
 public:
  explicit PageHours(const PageBasis& page);

  /// Attributes of the card of `graft`, each with a blank before it; empty where its hours are not known.
  std::string attributes(const GraftSince& graft, std::span<const ChartDay> days);
  /// The element that holds what the cards share; after the last card.
  std::string shared() const;

 private:
  std::size_t place_of(const std::string& series);

  const PageBasis& page_;
  const SinceHours* longest_ = nullptr;  ///< Of the graft that was made first.
  std::map<std::string, std::size_t> places_;
  std::vector<std::string> tissues_;
};

}  // namespace graftcast
