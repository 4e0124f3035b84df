#pragma once
// Runs a piece of work with as many lanes as this processor computes at once (private to the layer).
//
// Lanes of any width give the same bits, so which of the functions below runs shows in the time alone.

namespace graftcast {

/// `work` offers `template <int width> void over() const`. All that it calls on lanes is compiled into each
/// of the functions below (flatten), since lanes must not cross a call between code for different processors.
template <class Work>
[[gnu::flatten, gnu::noinline]] void over_two_lanes(const Work& work) {
  work.template over<2>();
}

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && defined(__OPTIMIZE__)

template <class Work>
[[gnu::target("avx2"), gnu::flatten, gnu::noinline]] void over_four_lanes(const Work& work) {
  work.template over<4>();
}
template <class Work>
[[gnu::target("avx512f,avx512dq"), gnu::flatten, gnu::noinline]] void over_eight_lanes(const Work& work) {
  work.template over<8>();
}

template <class Work>
void over_widest_lanes(const Work& work) {
  if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq")) {
    over_eight_lanes(work);
  } else if (__builtin_cpu_supports("avx2")) {
    over_four_lanes(work);
  } else {
    over_two_lanes(work);
  }
}

#else

template <class Work>
void over_widest_lanes(const Work& work) {
  over_two_lanes(work);
}

#endif

}  // namespace graftcast
