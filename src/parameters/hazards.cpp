#include "parameters/hazards.hpp"

#include "key_table.hpp"

namespace graftcast {

namespace {

constexpr auto heat_day_numbers = std::to_array<NumberRow>({
    number<&HeatDay::fresh_c>("degC", "hottest hour of the tissue from which a fresh union's day is hot"),
    number<&HeatDay::callusing_c>("degC", "of a callusing one"),
    number<&HeatDay::bridged_c>("degC", "of a bridged one"),
    number<&HeatDay::drinking_c>("degC", "of one that drinks"),
    number<&HeatDay::firm_c>("degC", "of a firm one"),
    number<&HeatDay::warm_species_k>("K", "more for species of warm climates"),
});
constexpr auto heat_day_order = rising<&HeatDay::fresh_c, &HeatDay::callusing_c, &HeatDay::bridged_c,
                                       &HeatDay::drinking_c, &HeatDay::firm_c>(0);

constexpr auto drying_day_numbers = std::to_array<NumberRow>({
    number<&DryingDay::fresh_share_per_day>("d-1",
                                            "net loss of the store from which a fresh union's day dries"),
    number<&DryingDay::callusing_share_per_day>("d-1", "of a callusing one"),
    number<&DryingDay::bridged_share_per_day>("d-1", "of a bridged one"),
    number<&DryingDay::drinking_share_per_day>("d-1", "of one that drinks"),
    number<&DryingDay::firm_share_per_day>("d-1", "of a firm one"),
});
constexpr auto drying_day_order =
    rising<&DryingDay::fresh_share_per_day, &DryingDay::callusing_share_per_day,
           &DryingDay::bridged_share_per_day, &DryingDay::drinking_share_per_day,
           &DryingDay::firm_share_per_day>(0);

constexpr auto cold_day_numbers = std::to_array<NumberRow>({
    number<&ColdDay::fresh_c>("degC", "coldest hour of the tissue at which a fresh union's day is cold"),
    number<&ColdDay::callusing_c>("degC", "of a callusing one"),
    number<&ColdDay::bridged_c>("degC", "of a bridged one"),
    number<&ColdDay::drinking_c>("degC", "of one that drinks"),
    number<&ColdDay::firm_c>("degC", "of a firm one"),
});
constexpr auto cold_day_order = std::to_array<Order>({
    below<&ColdDay::callusing_c, &ColdDay::fresh_c>(0),
    below<&ColdDay::bridged_c, &ColdDay::callusing_c>(0),
    below<&ColdDay::drinking_c, &ColdDay::bridged_c>(0),
    below<&ColdDay::firm_c, &ColdDay::drinking_c>(0),
});

constexpr auto mould_day_numbers = std::to_array<NumberRow>({
    number<&MouldDay::hours>("h", "bagged, wet and mild in a day, from which mould is favoured"),
    number<&MouldDay::low_c>("degC", "from which it is mild"),
    number<&MouldDay::high_c>("degC", "up to which it is mild"),
    number<&MouldDay::damp_air_share>("share", "mean humidity of weather in which bagged bare wood moulds"),
    number<&MouldDay::wet_share>("share", "relative humidity that counts as wet"),
});
constexpr auto mould_day_order = rising<&MouldDay::low_c, &MouldDay::high_c>(1);

constexpr auto soaked_day_numbers = std::to_array<NumberRow>({
    number<&SoakedDay::rain_mm>("mm", "in a day on an unsealed union"),
});

constexpr auto wind_day_numbers = std::to_array<NumberRow>({
    number<&WindDay::fresh_m_s>("m s-1", "gust from which a fresh union's day is windy"),
    number<&WindDay::callusing_m_s>("m s-1", "of a callusing one"),
    number<&WindDay::bridged_m_s>("m s-1", "of a bridged one"),
    number<&WindDay::drinking_m_s>("m s-1", "of one that drinks"),
    number<&WindDay::firm_m_s>("m s-1", "of a firm one"),
    number<&WindDay::shoot_share>("share", "by which a full first flush lowers the limit"),
    above_zero<&WindDay::stake_factor>("1", "by which a stake raises it"),
});
constexpr auto wind_day_order = rising<&WindDay::fresh_m_s, &WindDay::callusing_m_s, &WindDay::bridged_m_s,
                                       &WindDay::drinking_m_s, &WindDay::firm_m_s>(0);

constexpr auto urgency_numbers = std::to_array<NumberRow>({
    number<&UrgencyLimits::now_p>("share", "risk from which to act today"),
    number<&UrgencyLimits::soon_p>("share", "risk from which to act by a day that is named"),
    number<&UrgencyLimits::watch_p>("share", "risk below which a graft is left alone"),
    number<&UrgencyLimits::now_h>("h", "ahead, within which what falls due is of today"),
    number<&UrgencyLimits::likely_lost_p>("share",
                                          "chance to be alive below which a look comes before any work"),
});
constexpr auto urgency_order =
    rising<&UrgencyLimits::watch_p, &UrgencyLimits::soon_p, &UrgencyLimits::now_p>(0);

constexpr auto heat_index_numbers = std::to_array<NumberRow>({
    number<&HeatIndexLimits::caution_c>("degC", "heat index in the shade from which people take caution"),
    number<&HeatIndexLimits::extreme_caution_c>("degC", "extreme caution"),
    number<&HeatIndexLimits::danger_c>("degC", "danger"),
    number<&HeatIndexLimits::extreme_danger_c>("degC", "extreme danger"),
    number<&HeatIndexLimits::sun_adds_k>("K", "that full sun can add"),
});
constexpr auto heat_index_order = rising<&HeatIndexLimits::caution_c, &HeatIndexLimits::extreme_caution_c,
                                         &HeatIndexLimits::danger_c, &HeatIndexLimits::extreme_danger_c>(0.1);

constexpr auto sign_numbers = std::to_array<NumberRow>({
    number<&SignChances::heat>("share", "chance to see the sign after a loss to heat"),
    number<&SignChances::dry_air>("share", "to dry air"),
    number<&SignChances::wind>("share", "to wind"),
    number<&SignChances::cover_sun>("share", "to a cover in the sun"),
    number<&SignChances::missing_cover>("share", "to a cover or seal that was missing"),
    number<&SignChances::dry_stock>("share", "to a dry stock"),
    number<&SignChances::cold>("share", "to cold"),
    number<&SignChances::slow_callus>("share", "to slow callus"),
    number<&SignChances::early_push>("share", "to buds that pushed too early"),
    number<&SignChances::match>("share", "to cambium that did not meet"),
    number<&SignChances::not_weather>("share", "to what is not weather"),
});

constexpr auto cautions_words = std::to_array<WordRow>({
    text<&CautionTexts::heat_illness>("in heat"),
    text<&CautionTexts::knives>("where knives are used"),
    text<&CautionTexts::hygiene>("where wood is cut"),
    text<&CautionTexts::quarantine>("where wood is moved and the species has no caution of its own"),
    text<&CautionTexts::products>("where a product is used"),
    text<&CautionTexts::local_rules>("with every advice"),
    text<&CautionTexts::sap>("of species whose sap harms skin"),
    text<&CautionTexts::disease>("where a sign may be of a disease"),
    text<&CautionTexts::model>("of what the model does not know"),
});

}  // namespace

constinit const KeyTable HeatDay::table{"heat-day", heat_day_numbers, {}, heat_day_order};
constinit const KeyTable DryingDay::table{"drying-day", drying_day_numbers, {}, drying_day_order};
constinit const KeyTable ColdDay::table{"cold-day", cold_day_numbers, {}, cold_day_order};
constinit const KeyTable MouldDay::table{"mould-day", mould_day_numbers, {}, mould_day_order};
constinit const KeyTable SoakedDay::table{"soaked-day", soaked_day_numbers};
constinit const KeyTable WindDay::table{"wind-day", wind_day_numbers, {}, wind_day_order};
constinit const KeyTable UrgencyLimits::table{"urgency", urgency_numbers, {}, urgency_order};
constinit const KeyTable HeatIndexLimits::table{"heat-index", heat_index_numbers, {}, heat_index_order};
constinit const KeyTable SignChances::table{"sign", sign_numbers};
constinit const KeyTable CautionTexts::table{"cautions", {}, cautions_words};

}  // namespace graftcast
