#include <cstdio>
#include <graftcast/error.hpp>
#include <graftcast/session.hpp>

int main(int count, char** arguments) try {
  graftcast::Session session(count > 1 ? arguments[1] : ".");
  const auto day = std::chrono::sys_days{std::chrono::June / 9 / 2025};
  const graftcast::MorningReport morning = session.morning({.as_of = day + std::chrono::hours(5)});
  for (const graftcast::GraftMorning& graft : morning.grafts) {
    if (graft.advice.act.is_none()) continue;
    const std::string act = act_name(graft.advice.act);
    std::printf("%s: %s, risk %.0f %%\n", graft.id.c_str(), act.c_str(), 100 * graft.risk.p);
    return 0;
  }
  std::puts("nothing to do");
} catch (const graftcast::Error& error) {
  std::fprintf(stderr, "%s\n", error.what());
  return error.exit_code();
}
