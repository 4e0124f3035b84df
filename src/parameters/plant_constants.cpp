#include "parameters/plant_constants.hpp"

#include "key_table.hpp"

namespace graftcast {

namespace {

using Climate = ClimateConstants;
constexpr auto climate_numbers = std::to_array<NumberRow>({
    above_zero<&Climate::wind_floor_m_s>("m s-1", "least wind at a scion"),
    number<&Climate::shade_wind_reduction>("share", "of the wind that a full shade cloth takes"),
    number<&Climate::sky_view>("share", "of the sky that an upright surface sees"),
    number<&Climate::sky_view_sun_offset>("share", "of that view which a spot without direct sun keeps"),
    above_zero<&Climate::beam_sine_floor>("1", "least sine of the sun's height that the beam is divided by"),
    above_zero<&Climate::beam_limit_w_m2>("W m-2", "strongest beam"),
    number<&Climate::ground_reflection>("1", "of global radiation, onto an upright surface"),
    above_zero<&Climate::tissue_emissivity>("1", "of plant surfaces, long wave"),
    number<&Climate::cloud_emissivity_weight>("1", "of full cloud in the sky's emissivity"),
    above_zero<&Climate::bag_diameter_mm>("mm", "of a bag over a scion"),
    above_zero<&Climate::bag_inner_coefficient_w_m2_k>("W m-2 K-1", "of heat across a bag's still air"),
    above_zero<&Climate::bag_saturation>("share", "relative humidity within a closed bag"),
    above_zero<&Climate::stem_diameter_mm>("mm", "of the stem under a bud, where the ledger gives none"),
    above_zero<&Climate::wood_conductivity_w_m_k>("W m-1 K-1", "of heat, fresh wood across the grain"),
    number<&Climate::whitewash_absorptance>("share", "of short wave, whitewashed bark"),
    number<&Climate::bag_content_share>("share", "of the light passed that warms the air within"),
});

using Water = WaterConstants;
constexpr auto water_numbers = std::to_array<NumberRow>({
    above_zero<&Water::base_supply_stick_per_day>("d-1",
                                                  "stores that seep across the cut of a stick, unjoined"),
    above_zero<&Water::base_supply_bud_per_day>("d-1", "of a bud"),
    above_zero<&Water::joined_supply_stick_per_day>("d-1", "stores that joined vessels bring a stick"),
    above_zero<&Water::joined_supply_bud_per_day>("d-1", "a bud"),
    number<&Water::leaf_growth_supply>("1", "by which supply grows with the leaves that it feeds"),
    above_zero<&Water::joining_width>("1", "spread of the joining of vessels, in healing"),
    number<&Water::bare_bud_area_cm2>("cm2", "scales of one bud"),
    above_zero<&Water::bare_bud_conductance_mmol>("mmol m-2 s-1", "of bud scales"),
    number<&Water::open_tip_area_cm2>("cm2", "of an unsealed tip"),
    above_zero<&Water::open_tip_conductance_mmol>("mmol m-2 s-1", "of an unsealed tip"),
    number<&Water::chip_edge_area_cm2>("cm2", "cut edges of a chip"),
    above_zero<&Water::chip_edge_conductance_mmol>("mmol m-2 s-1", "of those edges"),
    number<&Water::shoot_leaf_area_stick_cm2>("cm2", "first leaves of a stick"),
    number<&Water::shoot_leaf_area_bud_cm2>("cm2", "first leaves of a bud"),
    above_zero<&Water::leaf_conductance_night_mol>("mol m-2 s-1", "of leaves with closed stomata"),
    number<&Water::leaf_conductance_open_mol>("mol m-2 s-1", "that open stomata add"),
    number<&Water::leaf_closing_water>("1", "share of the full store at which stomata are shut"),
    above_zero<&Water::leaf_closing_range>("1", "above that, until they are open"),
    number<&Water::connected_relief>("1", "by which a connected shoot bears a lower store"),
});

using Healing = HealingConstants;
constexpr auto healing_numbers = std::to_array<NumberRow>({
    number<&Healing::stock_floor>("share", "of the pace that a dry stock leaves"),
    number<&Healing::match_floor>("share", "of the pace that cambium which hardly meets leaves"),
    number<&Healing::frost_callus_c>("degC", "tissue temperature that kills fresh callus"),
    number<&Healing::frost_setback_healing>("1", "healing to which that throws back"),
    above_zero<&Healing::match_both_a>("1", "first shape of the match (beta), both sides set to meet"),
    above_zero<&Healing::match_both_b>("1", "second shape"),
    above_zero<&Healing::match_one_a>("1", "first shape of the match, one side set to meet"),
    above_zero<&Healing::match_one_b>("1", "second shape"),
    above_zero<&Healing::fresh_until>("1", "healing up to which a union is fresh"),
    above_zero<&Healing::bridged_at>("1", "healing from which it is bridged"),
    above_zero<&Healing::slit_wrap_factor>("1",
                                           "times the healing of joined vessels, at which the wrap is slit"),
    above_zero<&Healing::firm_at>("1", "healing from which it is firm"),
});
constexpr auto healing_order = rising<&Healing::fresh_until, &Healing::bridged_at, &Healing::firm_at>(0.1);

using Buds = BudConstants;
constexpr auto buds_numbers = std::to_array<NumberRow>({
    above_zero<&Buds::leaf_out_days>("d", "at the optimum, from bud push to the first full leaves"),
    number<&Buds::leaf_water_floor>("1", "share of the full store below which young shoots shrivel"),
    above_zero<&Buds::leaf_water_range>("1", "above that, until they grow at full pace"),
    above_zero<&Buds::shrivel_days>("d", "time constant of shrivelling"),
});

using Heat = HeatConstants;
constexpr auto heat_numbers = std::to_array<NumberRow>({
    number<&Heat::reference_c>("degC", "common scale on which the dose is reckoned"),
    above_zero<&Heat::slope_k>("K", "that shorten the time to death to a tenth"),
    above_zero<&Heat::recovery_days>("d", "time constant of the repair of damage"),
    above_zero<&Heat::limit_ln_sd>("1", "scatter of what kills (ln)"),
});

using Stores = StoresConstants;
constexpr auto stores_numbers = std::to_array<NumberRow>({
    above_zero<&Stores::q10>("1", "factor on respiration by 10 K"),
    number<&Stores::reference_c>("degC", "for which the days of stores are given"),
    above_zero<&Stores::limit_ln_sd>("1", "scatter of how long single scions last (ln)"),
});

using Stock = StockConstants;
constexpr auto stock_numbers = std::to_array<NumberRow>({
    above_zero<&Stock::pot_available_share>("share", "litres of water that a litre of pot gives up"),
    above_zero<&Stock::ground_available_mm>("mm", "of water that the ground gives up"),
    number<&Stock::crop_headed>("1", "crop coefficient of a stock headed back"),
    number<&Stock::crop_full>("1", "crop coefficient with a full head"),
    above_zero<&Stock::leaf_area_coefficient>("m2", "evaporating area of a plant in a pot of one litre"),
    above_zero<&Stock::depletion_share>("share", "of the available water that goes without stress"),
    above_zero<&Stock::watering_assumed_days>("d", "between waterings, where the diary says nothing"),
    above_zero<&Stock::waterlogged_days>("d", "above capacity, from which roots lack air"),
});

using Wood = WoodConstants;
constexpr auto wood_numbers = std::to_array<NumberRow>({
    number<&Wood::fridge_temperature_c>("degC", "of a fridge"),
    above_zero<&Wood::fridge_humidity>("share", "relative humidity, wrapped in a fridge"),
    above_zero<&Wood::shed_temperature_c>("degC", "of a shed or cellar"),
    above_zero<&Wood::shed_humidity>("share", "relative humidity, heeled in there"),
    above_zero<&Wood::water_temperature_c>("degC", "of a bucket in the shade"),
    above_zero<&Wood::water_days>("d", "until wood with its foot in water rots"),
    above_zero<&Wood::none_temperature_c>("degC", "of the open or a room"),
    above_zero<&Wood::none_humidity>("share", "relative humidity there"),
    above_zero<&Wood::stick_bark_area_cm2>("cm2", "of a stick in store"),
    above_zero<&Wood::stick_water_store_g>("g", "of a stick in store, when full"),
    above_zero<&Wood::stores_share>("share", "of sugar and starch that may go in store"),
});

}  // namespace

constinit const KeyTable ClimateConstants::table{"climate", climate_numbers};
constinit const KeyTable WaterConstants::table{"water", water_numbers};
constinit const KeyTable HealingConstants::table{"healing", healing_numbers, {}, healing_order};
constinit const KeyTable BudConstants::table{"buds", buds_numbers};
constinit const KeyTable HeatConstants::table{"heat", heat_numbers};
constinit const KeyTable StoresConstants::table{"stores", stores_numbers};
constinit const KeyTable StockConstants::table{"stock", stock_numbers};
constinit const KeyTable WoodConstants::table{"wood", wood_numbers};

}  // namespace graftcast
