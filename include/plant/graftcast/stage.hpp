#pragma once
// Stages of a union, by healing.

#include <cstdint>
#include <string_view>

namespace graftcast {

/// How far the union of scion and stock has come, from the cut to wood that holds by itself.
enum class Stage : std::uint8_t { fresh, callusing, bridged, drinking, firm };

/// The code in JSON: `fresh`, `callusing`, `bridged`, `drinking`, `firm`.
std::string_view stage_name(Stage stage);

}  // namespace graftcast
