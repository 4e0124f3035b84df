#pragma once

#include "graftcast/graft_card.hpp"
#include "records/ledger.hpp"

namespace graftcast {

/// As the ledger has it; where it stands now and how many are open is for the answer to say.
inline GraftCard card_of(const GraftRow& row) {
  return {row.id,   row.scion, row.species,  row.method,    row.stock,
          row.spot, row.count, row.priority, row.grafted_on};
}

}  // namespace graftcast
