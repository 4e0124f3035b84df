#include "parameters/advice_constants.hpp"

#include "key_table.hpp"

namespace graftcast {

namespace {

using Actions = ActionConstants;
constexpr auto actions_numbers = std::to_array<NumberRow>({
    number<&Actions::shade_cloth_share>("share",
                                        "of light that a shade cloth takes, where the site does not say"),
    number<&Actions::frost_cover_gain_k>("K", "by which a frost cover holds the night up"),
    number<&Actions::harm_limit>("1", "loss to heat that a cover may add"),
    number<&Actions::harm_share>("share", "of what a cover saves that heat may take"),
    above_zero<&Actions::worth_share>("share", "of the best gain with which a cheaper action is as good"),
    above_zero<&Actions::undo_share>("share", "of its good after which what is put on may come off"),
    number<&Actions::minutes_shade_cloth>("min", "to fix a shade cloth"),
    number<&Actions::minutes_clear_bag>("min", "to tie a bag"),
    number<&Actions::minutes_paper>("min", "to slip paper over"),
    number<&Actions::minutes_foil>("min", "to wrap foil round a bag"),
    number<&Actions::minutes_vent>("min", "to cut or untie a corner"),
    number<&Actions::minutes_water>("min", "to water a stock"),
    number<&Actions::minutes_move>("min", "to carry a pot"),
    number<&Actions::minutes_stake>("min", "to tie a splint"),
    number<&Actions::minutes_whitewash>("min", "to paint a stem"),
    number<&Actions::sunny_share>("share", "of open sun above which no bare clear bag is put on"),
    number<&Actions::minutes_frost_cover>("min", "to lay a fleece"),
});

using When = WhenConstants;
constexpr auto when_numbers = std::to_array<NumberRow>({
    above_zero<&When::good_share>("share", "of what the hand would bring through, from which a week is good"),
    above_zero<&When::near_best_share>("share", "of the best week's chance that is as good as it"),
    above_zero<&When::least_season_share>("share", "of its hours known, from which a past season counts"),
    above_zero<&When::slips_note_days>("d", "that a note of slipping bark holds"),
    above_zero<&When::bleeding_note_days>("d", "that a note of bleeding holds"),
    above_zero<&When::flushing_note_days>("d", "that a note of a flush holds"),
});

using Why = WhyConstants;
constexpr auto why_numbers = std::to_array<NumberRow>({
    above_zero<&Why::applies_loss>("share", "by which a factor moves the loss, from which it counts"),
    above_zero<&Why::explained_loss>("share", "of loss from which weather explains it"),
    above_zero<&Why::harmless_humidity_share>("share", "relative humidity in which grafts hardly dry"),
    above_zero<&Why::harmless_wind_m_s>("m s-1", "wind that does no harm"),
    above_zero<&Why::near_share>("share", "of the likeliest cause's chance that weighs as much"),
    above_zero<&Why::saved_share>("share", "of the loss that an action must save to be named"),
    number<&Why::minutes_wrap>("min", "to wrap a graft as usual"),
});

using Regraft = RegraftConstants;
constexpr auto regraft_numbers = std::to_array<NumberRow>({
    number<&Regraft::stock_week_cost>("share", "of a graft taken: a week of a stock without a living scion"),
    number<&Regraft::look_cost>("share", "of a graft taken: a look at the union"),
    number<&Regraft::graft_cost>("share", "of a graft taken: wood, wrap and work"),
    above_zero<&Regraft::first_look_days>("d", "after grafting, before which nothing is to be seen"),
    above_zero<&Regraft::patience_days>("d", "after which a dead scion is seen without a look"),
    above_zero<&Regraft::shown_from_share>("share", "of the doubtful days from when failed grafts show it"),
});

using Aftercare = AftercareConstants;
constexpr auto aftercare_numbers = std::to_array<NumberRow>({
    above_zero<&Aftercare::suckers_from_days>("d", "after grafting, until suckers are first rubbed off"),
    above_zero<&Aftercare::suckers_every_days>("d", "between rounds"),
    above_zero<&Aftercare::suckers_bud_clock>("1", "bud clock at which the stock's own buds push"),
    above_zero<&Aftercare::suckers_last_days>("d", "after grafting, from which the stock is quiet"),
    above_zero<&Aftercare::thin_leaf_share>("share", "of the first leaves, from which shoots are thinned"),
    above_zero<&Aftercare::tie_leaf_share>("share", "of the first leaves, from which a shoot is tied"),
    above_zero<&Aftercare::remove_wrap_after_days>("d", "from the slit until the wrap comes off"),
    above_zero<&Aftercare::vent_step_days>("d", "between the steps that open a bag"),
    above_zero<&Aftercare::harden_search_days>("d", "ahead in which a day for the next step is looked for"),
    above_zero<&Aftercare::keep_shade_days>("d", "of shade after the bag is off"),
    above_zero<&Aftercare::given_up_days>("d", "overdue, after which a task is no longer asked for"),
    above_zero<&Aftercare::spring_heading_days>("d", "from midwinter until late buds are forced"),
});

}  // namespace

constinit const KeyTable ActionConstants::table{"actions", actions_numbers};
constinit const KeyTable WhenConstants::table{"when", when_numbers};
constinit const KeyTable WhyConstants::table{"why", why_numbers};
constinit const KeyTable RegraftConstants::table{"regraft", regraft_numbers};
constinit const KeyTable AftercareConstants::table{"aftercare", aftercare_numbers};

}  // namespace graftcast
