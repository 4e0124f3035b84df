#include "parameters/cover.hpp"

#include "key_table.hpp"

namespace graftcast {

namespace {

constexpr auto cover_numbers = std::to_array<NumberRow>({
    number<&Cover::light_passed>("share", "of short wave that reaches the scion"),
    number<&Cover::light_absorbed>("share", "of short wave that warms the wall"),
    number<&Cover::closed>("share", "of vapour held in: 1 closed, 0.5 vented, 0 open"),
    number<&Cover::wall>("1", "1 where a wall stands between scion and sky, else 0"),
});

constexpr auto cover_words = std::to_array<WordRow>({
    word<&Cover::vapour>("vapour within: as outside, half of a closed bag's, or a closed bag's"),
    text<&Cover::needs>("supplies that it takes, with a plus between them"),
});

constexpr auto wrap_numbers = std::to_array<NumberRow>({
    above_zero<&Wrap::conductance_factor>("1", "on the conductance of the bark"),
    number<&Wrap::short_wave_absorptance>("share", "of short wave that warms the wrapped scion"),
});

constexpr auto wrap_words = std::to_array<WordRow>({
    word<&Wrap::bud_bare>("whether it leaves the buds bare"),
    word<&Wrap::tip_sealed>("whether it seals the cut tip"),
    word<&Wrap::cut_edges_sealed>("whether it seals the cut edges of a chip"),
});

}  // namespace

constinit const KeyTable Cover::table{{}, cover_numbers, cover_words};
constinit const KeyTable Wrap::table{{}, wrap_numbers, wrap_words};

}  // namespace graftcast
