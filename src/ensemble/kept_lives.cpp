#include "ensemble/kept_lives.hpp"

#include <algorithm>
#include <cstring>
#include <type_traits>

#include "mixed_bits.hpp"

namespace graftcast {

namespace {

// Numbers are as this machine has them: on another the sum does not agree, and nothing is taken in.
constexpr std::string_view mark_of_file = "graftcast lives 1\n";

constexpr std::size_t head_bytes = mark_of_file.size() + sizeof(LifeKey);

/// Memory to set aside for writing a life.
std::size_t bytes_about(const KeptLife& life) {
  const std::size_t states = (1 + life.at_observations.size()) * life.states.size();
  return 256 + states * sizeof(UnionState<Pack>) + life.course.size() * sizeof(float) +
         (life.marks.size() + life.observations.size()) * sizeof(long);
}

class Writer {
 public:
  explicit Writer(std::size_t size) { bytes_.reserve(size); }
  void raw(std::string_view bytes) { bytes_.append(bytes); }
  template <class Number>
  void number(Number value) {
    static_assert(std::is_trivially_copyable_v<Number>);
    bytes_.append(reinterpret_cast<const char*>(&value), sizeof value);
  }
  template <class Number>
  void numbers(const std::vector<Number>& values) {
    number(values.size());
    bytes_.append(reinterpret_cast<const char*>(values.data()), values.size() * sizeof(Number));
  }
  void text(std::string_view text) {
    number(text.size());
    raw(text);
  }
  std::string take() { return std::move(bytes_); }

 private:
  std::string bytes_;
};

/// Reads what Writer wrote. Past the end everything is zero and `failed` is set.
class Reader {
 public:
  explicit Reader(std::string_view bytes) : rest_(bytes) {}

  template <class Number>
  Number number() {
    Number value{};
    take(&value, sizeof value);
    return value;
  }
  template <class Number>
  std::vector<Number> numbers() {
    const std::size_t count = counted(sizeof(Number));
    std::vector<Number> values(count);
    take(values.data(), count * sizeof(Number));
    return values;
  }
  std::string text() {
    std::string text(counted(1), '\0');
    take(text.data(), text.size());
    return text;
  }
  /// A count of things of which each takes at least `size` bytes.
  std::size_t counted(std::size_t size) {
    const auto count = number<std::size_t>();
    if (count <= rest_.size() / size) return count;
    failed_ = true;
    return 0;
  }
  bool failed() const { return failed_; }
  bool at_end() const { return rest_.empty(); }

 private:
  void take(void* to, std::size_t size) {
    if (size > rest_.size()) {
      failed_ = true;
      return;
    }
    std::copy_n(rest_.data(), size, static_cast<char*>(to));
    rest_.remove_prefix(size);
  }
  std::string_view rest_;
  bool failed_ = false;
};

std::vector<double> flat(const UnionStates& states) {
  static_assert(sizeof(UnionState<Pack>) % sizeof(double) == 0);
  std::vector<double> numbers(states.size() * sizeof(UnionState<Pack>) / sizeof(double));
  std::copy_n(reinterpret_cast<const char*>(states.data()), numbers.size() * sizeof(double),
              reinterpret_cast<char*>(numbers.data()));
  return numbers;
}

UnionStates states_of(const std::vector<double>& numbers) {
  UnionStates states(numbers.size() * sizeof(double) / sizeof(UnionState<Pack>));
  std::copy_n(reinterpret_cast<const char*>(numbers.data()), states.size() * sizeof(UnionState<Pack>),
              reinterpret_cast<char*>(states.data()));
  return states;
}

std::vector<long> counted_hours(const std::vector<Hour>& hours) {
  std::vector<long> counts;
  for (const Hour hour : hours) counts.push_back(hour.time_since_epoch().count());
  return counts;
}

Hour hour_of(long count) {
  return Hour{std::chrono::hours(count)};
}

std::vector<Hour> hours_of(const std::vector<long>& counts) {
  std::vector<Hour> hours;
  for (const long count : counts) hours.push_back(hour_of(count));
  return hours;
}

void write(const std::string& id, const KeptLife& life, Writer& to) {
  to.text(id);
  to.number(life.key);
  to.number(life.begin.time_since_epoch().count());
  to.number(life.end.time_since_epoch().count());
  to.numbers(flat(life.states));
  to.numbers(counted_hours(life.marks));
  to.numbers(life.course);
  to.numbers(counted_hours(life.observations));
  for (const UnionStates& states : life.at_observations) to.numbers(flat(states));
}

KeptLife read_life(Reader& from) {
  KeptLife life;
  life.key = from.number<LifeKey>();
  life.begin = hour_of(from.number<long>());
  life.end = hour_of(from.number<long>());
  life.states = states_of(from.numbers<double>());
  life.marks = hours_of(from.numbers<long>());
  life.course = from.numbers<float>();
  life.observations = hours_of(from.numbers<long>());
  for (std::size_t i = 0; i < life.observations.size() && !from.failed(); ++i)
    life.at_observations.push_back(states_of(from.numbers<double>()));
  return life;
}

bool is_whole(const KeptLife& life) {
  const std::size_t members = life.states.size() * pack_size;
  return members > 0 && !life.marks.empty() && life.marks.back() == life.end &&
         life.course.size() == life.marks.size() * members * course_fields.size() &&
         std::ranges::all_of(life.at_observations,
                             [&](const UnionStates& states) { return states.size() == life.states.size(); });
}

std::array<std::uint64_t, 2> sum_over(std::string_view bytes) {
  MixedBits sum;
  sum.add(bytes);
  return sum.mixed();
}

}  // namespace

std::shared_ptr<const KeptLife> KeptLives::find(const std::string& id) const {
  const std::scoped_lock lock(mutex_);
  const auto held = lives_.find(id);
  if (held == lives_.end()) return nullptr;
  held->second.is_asked_for = true;
  return held->second.life;
}

void KeptLives::keep(const std::string& id, KeptLife life) {
  auto shared = std::make_shared<const KeptLife>(std::move(life));
  const std::scoped_lock lock(mutex_);
  lives_[id] = {std::move(shared), true};
}

void KeptLives::count_worked_out(std::size_t member_hours) {
  const std::scoped_lock lock(mutex_);
  member_hours_worked_out_ += member_hours;
}

std::size_t KeptLives::member_hours_worked_out() const {
  const std::scoped_lock lock(mutex_);
  return member_hours_worked_out_;
}

std::string KeptLives::bytes() const {
  const std::scoped_lock lock(mutex_);
  std::size_t size = head_bytes;
  for (const auto& [id, held] : lives_)
    if (held.is_asked_for) size += bytes_about(*held.life);
  Writer content(size);
  content.raw(mark_of_file);
  content.number(LifeKey{});  // The sum's place.
  for (const auto& [id, held] : lives_)
    if (held.is_asked_for) write(id, *held.life, content);
  std::string whole = content.take();
  const auto sum = sum_over(std::string_view(whole).substr(head_bytes));
  std::memcpy(whole.data() + mark_of_file.size(), &sum, sizeof sum);
  return whole;
}

bool KeptLives::take_in(std::string_view bytes) {
  if (!bytes.starts_with(mark_of_file)) return false;
  Reader head(bytes.substr(mark_of_file.size()));
  const auto sum = head.number<std::array<std::uint64_t, 2>>();
  if (head.failed()) return false;
  const std::string_view body = bytes.substr(head_bytes);
  if (sum_over(body) != sum) return false;
  Reader from(body);
  std::map<std::string, Held> lives;
  while (!from.at_end() && !from.failed()) {
    const std::string id = from.text();
    KeptLife life = read_life(from);
    if (from.failed() || !is_whole(life)) return false;
    lives[id] = {std::make_shared<const KeptLife>(std::move(life)), false};
  }
  if (from.failed()) return false;
  const std::scoped_lock lock(mutex_);
  lives_ = std::move(lives);
  return true;
}

}  // namespace graftcast
