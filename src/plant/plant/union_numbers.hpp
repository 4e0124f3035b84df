#pragma once
// The numbers of a union's members and of their state, each named once in a list. The structs, what loads and
// stores them a few members at a time and the ensemble's arrays are made from these lists: a new number is
// one line here.

/// What differs from member to member. Conductances in mol m-2 s-1, areas in m2.
#define GRAFTCAST_MEMBER_NUMBERS(NUMBER)                                                   \
  NUMBER(bridge_days)      /* D: days at the optimum from grafting to the callus bridge */ \
  NUMBER(vascular_healing) /* Hv: healing at which vessels are fully joined */             \
  NUMBER(callus_lower_c)                                                                   \
  NUMBER(callus_optimum_c)                                                                 \
  NUMBER(callus_upper_c)                                                                   \
  NUMBER(base_supply_per_day)   /* k0 */                                                   \
  NUMBER(joined_supply_per_day) /* k1 */                                                   \
  NUMBER(cambium_match)         /* c, 0..1 */                                              \
  NUMBER(bark_conductance_mol)  /* with the wrap's factor */                               \
  NUMBER(bark_area_m2)                                                                     \
  NUMBER(bare_conductance_area) /* conductance times area that the wrap leaves, mol s-1 */ \
  NUMBER(bare_area_m2)                                                                     \
  NUMBER(own_leaf_area_m2)   /* leaves the scion was grafted with */                       \
  NUMBER(shoot_leaf_area_m2) /* leaves of the new shoot at leaf_share 1 */                 \
  NUMBER(water_store_mol)    /* full store, mol of water */                                \
  NUMBER(stops_water)        /* Wc: callus stops below it */                               \
  NUMBER(full_water)         /* Ws: callus is unhindered above it */                       \
  NUMBER(bud_base_c)                                                                       \
  NUMBER(bud_push_degree_days)                                                             \
  NUMBER(heat_recovery_days) /* tau */                                                     \
  NUMBER(stores_days)        /* R20 */

/// State carried from hour to hour, with the running extremes that decide survival.
#define GRAFTCAST_STATE_NUMBERS(NUMBER)                        \
  NUMBER(water)                                                \
  NUMBER(healing)                                              \
  NUMBER(bud_clock)                                            \
  NUMBER(leaf_share)                                           \
  NUMBER(heat_dose)                                            \
  NUMBER(stores_spent)                                         \
  NUMBER(lowest_reserve) /* min over time of W + relief * U */ \
  NUMBER(highest_heat_dose)                                    \
  NUMBER(highest_cold_kill) /* max over time of the chance that cold killed it */

#define GRAFTCAST_DECLARE_NUMBER(name) Real name;
#define GRAFTCAST_VISIT_NUMBER(name) visit(of.name...);

namespace graftcast {

template <class Real>
struct UnionMember {
  GRAFTCAST_MEMBER_NUMBERS(GRAFTCAST_DECLARE_NUMBER)

  /// `visit(a.bridge_days, b.bridge_days)` for `of` a and b, and so on for every number.
  template <class Visit, class... Of>
  static void each(const Visit& visit, Of&&... of) {
    GRAFTCAST_MEMBER_NUMBERS(GRAFTCAST_VISIT_NUMBER)
  }
};

template <class Real>
struct UnionState {
  GRAFTCAST_STATE_NUMBERS(GRAFTCAST_DECLARE_NUMBER)

  /// As above.
  template <class Visit, class... Of>
  static void each(const Visit& visit, Of&&... of) {
    GRAFTCAST_STATE_NUMBERS(GRAFTCAST_VISIT_NUMBER)
  }
};

}  // namespace graftcast

#undef GRAFTCAST_DECLARE_NUMBER
#undef GRAFTCAST_VISIT_NUMBER
