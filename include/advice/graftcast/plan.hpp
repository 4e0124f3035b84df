#pragma once
// Which grafts get the covers and the minutes at hand.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "graftcast/act.hpp"

namespace graftcast {

/// An act that would save more of the same row, given up because what it takes saves more elsewhere.
struct DearerAct {
  Act act;
  double p_after = 0;                 ///< Risk with it, 0..1.
  std::vector<std::string> supplies;  ///< What it takes beyond the one chosen; empty: time.
};

/// One act for some or all grafts of a row.
struct PlannedAct {
  std::string id;
  Act act;
  int count = 1;
  double p_before = 0, p_after = 0;  ///< Risk of one, 0..1.
  double saved = 0;                  ///< priority * count * alive * (risk as it is - risk with it).
  std::map<std::string, int> needs;  ///< Supplies in all.
  double minutes = 0;                ///< Work in all.
  std::optional<DearerAct> dearer;
};

struct MorningPlan {
  std::map<std::string, int> supplies;   ///< At hand.
  std::map<std::string, int> left;       ///< Of them, once the plan is carried out.
  std::vector<std::string> not_counted;  ///< That acts need and site.json does not count: none is short.
  std::optional<double> minutes_limit;
  double minutes = 0;                      ///< Work in all.
  double saved = 0;                        ///< Priority-weighted grafts that the plan saves, expected.
  std::vector<PlannedAct> assigned;        ///< In the order of the list.
  std::vector<std::string> unserved;       ///< Ids that need something and get nothing, or not all of them.
  std::map<std::string, double> marginal;  ///< What one more of each supply would save.
};

}  // namespace graftcast
