#pragma once
// Constants of what is advised (models/union.json). What each number means stands in the tables of
// advice_constants.cpp.

#include "parameters/entry.hpp"

namespace graftcast {

/// What actions cost and give.
struct ActionConstants : KeyedEntry<ActionConstants> {
  static const KeyTable table;
  Parameter shade_cloth_share, frost_cover_gain_k;
  Parameter harm_limit, harm_share, worth_share, undo_share, sunny_share;
  Parameter minutes_shade_cloth, minutes_clear_bag, minutes_paper, minutes_foil, minutes_vent, minutes_water,
      minutes_move, minutes_stake, minutes_whitewash, minutes_frost_cover;
};

/// What makes a week to graft.
struct WhenConstants : KeyedEntry<WhenConstants> {
  static const KeyTable table;
  Parameter good_share, near_best_share, least_season_share;
  Parameter slips_note_days, bleeding_note_days, flushing_note_days;
};

/// What explains a loss.
struct WhyConstants : KeyedEntry<WhyConstants> {
  static const KeyTable table;
  Parameter applies_loss, explained_loss;
  Parameter harmless_humidity_share, harmless_wind_m_s;
  Parameter near_share, saved_share, minutes_wrap;
};

/// Waiting or grafting again.
struct RegraftConstants : KeyedEntry<RegraftConstants> {
  static const KeyTable table;
  Parameter stock_week_cost, look_cost, graft_cost;
  Parameter first_look_days, patience_days, shown_from_share;
};

/// Work on the stock and the young shoot.
struct AftercareConstants : KeyedEntry<AftercareConstants> {
  static const KeyTable table;
  Parameter suckers_from_days, suckers_every_days, suckers_bud_clock, suckers_last_days;
  Parameter thin_leaf_share, tie_leaf_share;
  Parameter remove_wrap_after_days, vent_step_days, harden_search_days, keep_shade_days;
  Parameter given_up_days, spring_heading_days;
};

}  // namespace graftcast
