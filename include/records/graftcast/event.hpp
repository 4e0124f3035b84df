#pragma once
// What a line of the diary may tell: one table of events. Whoever compares events does so by the enumerator
// and asks this table what it means; no event's word stands anywhere else.

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace graftcast {

enum class Event : std::uint8_t {
  bag_on,
  bag_off,
  bag_vented,
  paper_on,
  paper_off,
  foil_on,
  foil_off,
  shade,
  wrap_on,
  wrap_slit,
  wrap_off,
  tip_sealed,
  frost_cover_on,
  frost_cover_off,
  whitewashed,
  whitewash_off,
  watered,
  moved,
  headed_back,
  lopped,
  bent,
  suckers_rubbed,
  staked,
  thinned,
  removed,
  green,
  callus,
  slips,
  bleeding,
  flushing,
  buds_moving,
  leafed_out,
  wilted,
  shrivelled,
  blackened,
  scorched,
  mould,
  dead,
  taken,
  taken_back,
  split,
};

enum class EventGroup : std::uint8_t { done, seen, administration };

/// What the value of an event says.
enum class EventValue : std::uint8_t {
  none,    ///< No value.
  share,   ///< Required, 0..0.95: the shade cloth's share.
  litres,  ///< Optional, 0..1000.
  spot,    ///< Required: a spot of the site.
  cover,   ///< Optional: a cover of the models; none means a clear bag.
  wrap,    ///< Optional: a wrap of the models; none means the method's usual one.
  count,   ///< Optional, 0 to the `count` of the one graft named: of how many of the batch it is true.
  line,   ///< Required: the id of a line, or its `when` as written there, and after a blank its event if need
          ///< be.
  child,  ///< Required: the id of the row that `split` makes.
};

/// What an event changes in how the model has the graft stand.
enum class Effect : std::uint8_t {
  none,
  bag_on,
  bag_off,
  vent,
  paper_on,
  paper_off,
  foil_on,
  foil_off,
  shade,
  wrap_on,
  wrap_open,
  seal_tip,
  frost_cover_on,
  frost_cover_off,
  whitewash_on,
  whitewash_off,
  water,
  move,
  head_stock,
  stake,
  stock_bleeds,
};

/// What an event is evidence of.
enum class Evidence : std::uint8_t {
  none,
  life,     ///< It lives.
  growth,   ///< It lives, and its shoot moves.
  failing,  ///< It is dying or dead; of a batch it is seen on the worst.
};

/// One row of the table.
struct EventRow {
  Event event;
  std::string_view word;      ///< As the diary has it.
  std::string_view synonyms;  ///< Words people say, set apart by `|`.
  EventGroup group;
  EventValue value = EventValue::none;
  Effect effect = Effect::none;
  Event undone_by = Event::taken_back;  ///< What a later line says when it no longer holds.
  Evidence evidence = Evidence::none;
  bool of_stock = false;  ///< Concerns the stock, so that it may come before the graft is made.
  bool at_a_glance =
      false;                ///< Who counts it has looked at the whole batch; callus, say, is sought on a few.
  bool tells_life = false;  ///< Who notes it has looked whether the graft lives.
  bool is_outcome = false;  ///< Closes the graft, or as many of a batch as are counted.

  /// Whether its value counts grafts of a batch.
  constexpr bool counts() const { return value == EventValue::count; }
};

namespace event_rows {

constexpr EventRow done(Event event, std::string_view word, std::string_view synonyms,
                        EventValue value = EventValue::none, Effect effect = Effect::none,
                        Event undone_by = Event::taken_back) {
  return {event, word, synonyms, EventGroup::done, value, effect, undone_by};
}
/// Seen on one, or on as many of a batch as its value says.
constexpr EventRow seen(Event event, std::string_view word, std::string_view synonyms,
                        Evidence evidence = Evidence::none) {
  EventRow row{event, word, synonyms, EventGroup::seen, EventValue::count};
  row.evidence = evidence;
  return row;
}
constexpr EventRow of_stock(EventRow row) {
  row.of_stock = true;
  return row;
}
constexpr EventRow at_a_glance(EventRow row) {
  row.at_a_glance = true;
  return row;
}
constexpr EventRow tells_life(EventRow row) {
  row.tells_life = true;
  return row;
}
constexpr EventRow outcome(EventRow row) {
  row.is_outcome = true;
  return row;
}
constexpr EventRow with_effect(Effect effect, EventRow row) {
  row.effect = effect;
  return row;
}

constexpr auto all() {
  using enum Event;
  using V = EventValue;
  using F = Effect;
  return std::array{
      done(bag_on, "bag-on", "bagged|bag put on", V::cover, F::bag_on, bag_off),
      done(bag_off, "bag-off", "unbagged|bag taken off|bag removed", V::none, F::bag_off, bag_on),
      done(bag_vented, "bag-vented", "vented|bag opened|corner cut", V::none, F::vent, bag_on),
      done(paper_on, "paper-on", "papered|paper put on", V::none, F::paper_on, paper_off),
      done(paper_off, "paper-off", "paper taken off|paper removed", V::none, F::paper_off, paper_on),
      done(foil_on, "foil-on", "foiled|foil put on", V::none, F::foil_on, foil_off),
      done(foil_off, "foil-off", "foil taken off|foil removed", V::none, F::foil_off, foil_on),
      done(shade, "shade", "shaded|shade cloth", V::share, F::shade, shade),
      done(wrap_on, "wrap-on", "wrapped|taped", V::wrap, F::wrap_on, wrap_off),
      done(wrap_slit, "wrap-slit", "slit|tape slit", V::none, F::wrap_open, wrap_on),
      done(wrap_off, "wrap-off", "unwrapped|wrap taken off|wrap removed", V::none, F::wrap_open, wrap_on),
      done(tip_sealed, "tip-sealed", "sealed|tip waxed", V::none, F::seal_tip),
      done(frost_cover_on, "frost-cover-on", "fleece on|covered for frost", V::none, F::frost_cover_on,
           frost_cover_off),
      done(frost_cover_off, "frost-cover-off", "fleece off|uncovered", V::none, F::frost_cover_off,
           frost_cover_on),
      done(whitewashed, "whitewashed", "whitewash|painted white|limed", V::none, F::whitewash_on,
           whitewash_off),
      done(whitewash_off, "whitewash-off", "whitewash gone|whitewash worn off", V::none, F::whitewash_off,
           whitewashed),
      of_stock(done(watered, "watered", "water|irrigated", V::litres, F::water)),
      done(moved, "moved", "moved to|move to", V::spot, F::move, moved),
      of_stock(done(headed_back, "headed-back", "headed|cut back", V::none, F::head_stock)),
      of_stock(done(lopped, "lopped", "lop|cut through in part")),
      of_stock(done(bent, "bent", "bent over|bent down")),
      of_stock(done(suckers_rubbed, "suckers-rubbed", "rubbed|suckers off")),
      done(staked, "staked", "tied|tied in", V::none, F::stake),
      done(thinned, "thinned", "thinned to one|pinched"),
      outcome(done(removed, "removed", "taken away|dug up|sold", V::count)),
      tells_life(seen(green, "green", "looks green|still green|alive", Evidence::life)),
      seen(callus, "callus", "callused|callusing", Evidence::life),
      of_stock(seen(slips, "slips", "slipping|bark slips")),
      with_effect(F::stock_bleeds, of_stock(seen(bleeding, "bleeding", "bleeds|sap runs"))),
      of_stock(seen(flushing, "flushing", "flushes|in flush")),
      at_a_glance(seen(buds_moving, "buds-moving", "buds move|buds swell|buds swelling", Evidence::growth)),
      at_a_glance(seen(leafed_out, "leafed-out", "in leaf|leaves out", Evidence::growth)),
      at_a_glance(seen(wilted, "wilted", "wilting|limp|drooping", Evidence::failing)),
      at_a_glance(seen(shrivelled, "shrivelled", "shriveled|shrivelling|dried up", Evidence::failing)),
      seen(blackened, "blackened", "black|blackening"),
      seen(scorched, "scorched", "sunburnt|sunburned"),
      seen(mould, "mould", "mold|mouldy|moldy"),
      at_a_glance(tells_life(outcome(seen(dead, "dead", "died|lost", Evidence::failing)))),
      tells_life(outcome(seen(taken, "taken", "took|has taken", Evidence::growth))),
      EventRow{taken_back, "void", "take back|not so", EventGroup::administration, V::line, F::none,
               taken_back, Evidence::none, true},
      EventRow{split, "split", "", EventGroup::administration, V::child},
  };
}

}  // namespace event_rows

inline constexpr auto event_table = event_rows::all();

inline constexpr std::size_t event_count = event_table.size();

constexpr const EventRow& about(Event event) {
  return event_table[static_cast<std::size_t>(event)];
}
constexpr std::string_view event_word(Event event) {
  return about(event).word;
}

constexpr bool is_sign_of_life(Event event) {
  return about(event).evidence == Evidence::life || about(event).evidence == Evidence::growth;
}
constexpr bool is_sign_of_failing(Event event) {
  return about(event).evidence == Evidence::failing;
}
/// Whether it says something of the graft's own life: what members are weighed by.
constexpr bool is_evidence(Event event) {
  return about(event).evidence != Evidence::none;
}

/// An event with its value, as a note has them.
struct EventNote {
  Event event{};
  std::string value;
};

/// `shade 0.5`, `bag-on`.
std::string note_words(const EventNote& note);

/// An event at the beginning of a text, and how much of the text names it.
struct NamedEvent {
  Event event;
  std::size_t length;
};

/// The event whose word or synonym `text` begins with, up to a blank or the end; of several the longest.
/// Capitals count as small letters, a blank as a hyphen.
std::optional<NamedEvent> event_at_start(std::string_view text);

/// The event that all of `text` names, by its word or a synonym.
std::optional<Event> event_named(std::string_view text);

/// The words of all events, for hints.
std::span<const std::string> event_words();

}  // namespace graftcast
