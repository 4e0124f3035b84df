#include "plant/cover_parts.hpp"

#include <algorithm>
#include <array>

namespace graftcast {

namespace {

using Over = CoverParts::Over;

constexpr std::string_view clear_bag = "clear-bag";
constexpr std::string_view no_cover = "none";

/// A cover of the models that is made of parts.
struct MadeOfParts {
  std::string_view name, bag;
  Over over = Over::nothing;
};
constexpr std::array made_of_parts{
    MadeOfParts{no_cover, {}},
    MadeOfParts{clear_bag, clear_bag},
    MadeOfParts{"vented-bag", clear_bag, Over::vent},
    MadeOfParts{"paper-over-bag", clear_bag, Over::paper},
    MadeOfParts{"foil-over-bag", clear_bag, Over::foil},
    MadeOfParts{"paper-bag", {}, Over::paper},
};

/// What is added to the name of a bag, which is also the name of the supply.
struct Addition {
  std::string_view word;
  Over over;
};
constexpr std::array additions{Addition{"vented", Over::vent}, Addition{"paper", Over::paper},
                               Addition{"foil", Over::foil}};

std::string_view word_of(Over over) {
  return std::ranges::find(additions, over, &Addition::over)->word;
}

/// The cover of the models with nothing done to its bag.
const Cover& bag_entry(const CoverParts& parts, const Models& models) {
  return models.covers.at(cover_name({parts.bag}));
}

/// A clear bag with `over` shows what that does to any.
CoverOptics clear_bag_with(Over over, const Models& models) {
  return cover_optics(models.covers.at(cover_name({std::string(clear_bag), over})));
}

/// Light meets the sheet first: what that takes up, and the share that it lets through to the bag.
CoverOptics under_sheet(CoverOptics bag, const CoverOptics& clear, const CoverOptics& with_sheet) {
  const double passed = with_sheet.light_passed / clear.light_passed;
  const double absorbed = std::max(0.0, with_sheet.light_absorbed - passed * clear.light_absorbed);
  bag.wall = true;
  bag.light_passed *= passed;
  bag.light_absorbed = absorbed + passed * bag.light_absorbed;
  return bag;
}

CoverOptics with_vent(CoverOptics bag, const CoverOptics& clear, const CoverOptics& vented) {
  bag.heat_kept *= vented.heat_kept / clear.heat_kept;
  bag.vapour_kept *= vented.vapour_kept / clear.vapour_kept;
  return bag;
}

std::map<std::string, int> counted_parts(std::string_view needs) {
  std::map<std::string, int> parts;
  for (std::size_t from = 0; from < needs.size();) {
    const std::size_t plus = std::min(needs.find('+', from), needs.size());
    ++parts[std::string(needs.substr(from, plus - from))];
    from = plus + 1;
  }
  return parts;
}

}  // namespace

CoverParts parts_of_cover(const std::string& name, const Models& models) {
  const auto made = std::ranges::find(made_of_parts, name, &MadeOfParts::name);
  if (made != made_of_parts.end()) return {std::string(made->bag), made->over};
  const std::size_t plus = name.rfind('+');
  if (plus == std::string::npos || models.covers.contains(name)) return {name};
  const auto added = std::ranges::find(additions, std::string_view(name).substr(plus + 1), &Addition::word);
  const std::string bag = name.substr(0, plus);
  return {bag == no_cover ? std::string() : bag, added->over};
}

std::string cover_name(const CoverParts& parts) {
  for (const MadeOfParts& made : made_of_parts)
    if (made.bag == parts.bag && made.over == parts.over) return std::string(made.name);
  const std::string bag = parts.bag.empty() ? std::string(no_cover) : parts.bag;
  return parts.over == Over::nothing ? bag : bag + '+' + std::string(word_of(parts.over));
}

CoverOptics cover_optics(const std::string& name, const Models& models) {
  if (const auto entry = models.covers.find(name); entry != models.covers.end())
    return cover_optics(entry->second);
  const CoverParts parts = parts_of_cover(name, models);
  const CoverOptics bag = cover_optics(bag_entry(parts, models));
  const CoverOptics clear = clear_bag_with(Over::nothing, models);
  const CoverOptics with = clear_bag_with(parts.over, models);
  return parts.over == Over::vent ? with_vent(bag, clear, with) : under_sheet(bag, clear, with);
}

bool is_bag(const std::string& name, const Models& models) {
  return cover_optics(name, models).vapour_kept > 0;
}

const Cover& cover_entry(const std::string& name, const Models& models) {
  const auto entry = models.covers.find(name);
  return entry != models.covers.end() ? entry->second : bag_entry(parts_of_cover(name, models), models);
}

std::map<std::string, int> cover_needs(const std::string& name, const Models& models) {
  std::map<std::string, int> needs = counted_parts(cover_entry(name, models).needs);
  if (models.covers.contains(name)) return needs;
  const Over over = parts_of_cover(name, models).over;
  if (over != Over::vent) ++needs[std::string(word_of(over))];
  return needs;
}

std::vector<std::string> supplies_of_covers(const Models& models) {
  std::vector<std::string> supplies;
  for (const auto& [name, cover] : models.covers)
    for (const auto& [supply, count] : counted_parts(cover.needs)) supplies.push_back(supply);
  return supplies;
}

std::vector<std::string> own_covers(const Models& models) {
  std::vector<std::string> own;
  for (const auto& [name, cover] : models.covers)
    if (std::ranges::find(made_of_parts, name, &MadeOfParts::name) == made_of_parts.end())
      own.push_back(name);
  return own;
}

}  // namespace graftcast
