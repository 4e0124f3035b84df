#include "graftcast/session.hpp"

#include "app/site_memory.hpp"

namespace graftcast {

Session::Session(const std::filesystem::path& folder, const AskSettings& settings)
    : memory_(std::make_unique<SiteMemory>(folder, settings)) {}
Session::~Session() = default;
Session::Session(Session&&) noexcept = default;
Session& Session::operator=(Session&&) noexcept = default;

MorningReport Session::morning(const MorningAsk& ask) {
  const auto moment = [&](const Clock&) {
    return ask.as_of.value_or(std::chrono::floor<std::chrono::minutes>(std::chrono::system_clock::now()));
  };
  return memory_->morning(moment, ask).report;
}

std::size_t Session::worked_out() const {
  return memory_->worked_out();
}

}  // namespace graftcast
