#include "words/count_words.hpp"

#include "text/tr.hpp"

namespace graftcast {

std::string grafts_words(std::size_t count) {
  return trn("{n} graft", "{n} grafts", static_cast<long>(count), "n"_a = count);
}

std::string rows_words(std::size_t count) {
  return trn("{n} row", "{n} rows", static_cast<long>(count), "n"_a = count);
}

std::string outcomes_words(std::size_t count) {
  return trn("{n} outcome", "{n} outcomes", static_cast<long>(count), "n"_a = count);
}

std::string forecasts_words(std::size_t count) {
  return trn("{n} forecast", "{n} forecasts", static_cast<long>(count), "n"_a = count);
}

std::string hours_words(std::size_t count) {
  return trn("{n} hour", "{n} hours", static_cast<long>(count), "n"_a = count);
}

std::string days_words(std::size_t count) {
  return trn("{n} day", "{n} days", static_cast<long>(count), "n"_a = count);
}

std::string weeks_words(std::size_t count) {
  return trn("{n} week", "{n} weeks", static_cast<long>(count), "n"_a = count);
}

}  // namespace graftcast
