#pragma once
// What a site's own results say of the published numbers.

#include <filesystem>

#include <nlohmann/json_fwd.hpp>

#include "graftcast/learned_shifts.hpp"

namespace graftcast {

Shifts operator+(const Shifts& a, const Shifts& b);

/// `chance` with its logit moved by `shift`. Valid: 0 < chance < 1.
double moved_chance(double chance, double shift);

nlohmann::ordered_json learned_to_json(const Learned& learned);
/// Reads `file`; nothing learned where there is none. Errors: OpenError; DataError with the place for an
/// unknown key, a number out of its range (means within 3, sds within 0..3) or a newer format.
Learned read_learned(const std::filesystem::path& file);

}  // namespace graftcast
