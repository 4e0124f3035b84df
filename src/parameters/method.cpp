#include "parameters/method.hpp"

#include "key_table.hpp"

namespace graftcast {

namespace {

constexpr auto method_numbers = std::to_array<NumberRow>({
    above_zero<&Method::rate_factor>("1", "speed of healing, relative to the species' days"),
    above_zero<&Method::diameter_mm>("mm", "of the usual scion"),
    above_zero<&Method::length_mm>("mm", "of the usual scion"),
    above_zero<&Method::bark_area_cm2>("cm2", "of the usual scion, what dries"),
    above_zero<&Method::water_store_g>("g", "of the usual scion, when full"),
    above_zero<&Method::buds>("1", "on the usual scion"),
    above_zero<&Method::take_share>("share", "of grafts that take in harmless weather"),
    number<&Method::bag_off_days>("d", "until a bag usually comes off; absent where none is used"),
    above_zero<&Method::wrap_slit_days>("d", "until the wrap is usually slit"),
    above_zero<&Method::doubtful_days>("d", "without a sign of life, from when a graft is doubtful"),
    above_zero<&Method::failed_days>("d", "without a sign of life, from when it counts as failed"),
    above_zero<&Method::break_gust_m_s>("m s-1", "gust that breaks out a young shoot"),
    number<&Method::sever_days>("d", "until a scion on its own roots is severed"),
});

constexpr auto method_words = std::to_array<WordRow>({
    word<&Method::organ>("what is grafted"),
    word<&Method::needs_slip>("whether the stock's bark must slip"),
    word<&Method::stock_head>("whether the stock is headed when it is grafted"),
    reference<&Method::usual_wrap>("wraps", "wrap where the ledger gives none"),
    reference<&Method::usual_cover>("covers", "cover of leafless deciduous wood"),
    reference<&Method::usual_cover_evergreen>("covers", "cover of evergreen wood"),
    word<&Method::scion_stays_rooted>("whether the scion lives on its own roots until it is severed"),
});

constexpr auto method_orders = rising<&Method::doubtful_days, &Method::failed_days>(1);

constexpr auto scion_state_numbers = std::to_array<NumberRow>({
    above_zero<&ScionState::bark_conductance_mmol>("mmol m-2 s-1", "of unwrapped bark, for water"),
    above_zero<&ScionState::water_share_fresh>("share", "of fresh weight that is water"),
    number<&ScionState::stops_callus_water>("1", "share of the full store at which callus stops"),
    number<&ScionState::full_callus_water>("1", "share of the full store from which callus is not slowed"),
    number<&ScionState::lost_water>("1", "share of the full store at which half are lost"),
    above_zero<&ScionState::lost_water_sd>("1", "scatter of that between scions"),
    above_zero<&ScionState::stores_days>("d", "that sugar and starch last at 20 degC"),
    number<&ScionState::own_leaf_area_cm2>("cm2", "of leaves left on at grafting"),
});

constexpr auto scion_state_words = std::to_array<WordRow>({
    word<&ScionState::leaves>("whether it bears leaves"),
});

constexpr auto scion_state_orders =
    rising<&ScionState::stops_callus_water, &ScionState::full_callus_water>(0.01);

}  // namespace

constinit const KeyTable Method::table{{}, method_numbers, method_words, method_orders};
constinit const KeyTable ScionState::table{{}, scion_state_numbers, scion_state_words, scion_state_orders};

}  // namespace graftcast
