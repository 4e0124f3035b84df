#pragma once
// Several doubles side by side in the processor's registers, with the arithmetic that the model needs.
//
// A value of one lane is the same whatever the number of lanes: nothing here depends on the processor, so
// that every machine gives the same bytes. Lanes are written like the arrays of Eigen that the same formulas
// take; unlike those, exponential and logarithm are done for all lanes at once at any width.

#include <cmath>
#include <cstdint>
#include <cstring>

namespace graftcast {

// Values of lanes must not cross a call: caller and callee may be compiled for processors of different width.
#define GRAFTCAST_INLINE [[gnu::always_inline]] inline

/// The processor's vectors of `width` numbers.
template <int width>
struct LaneVectors {
  using Doubles [[gnu::vector_size(width * sizeof(double))]] = double;
  using Singles [[gnu::vector_size(width * sizeof(float))]] = float;
  using Bits [[gnu::vector_size(width * sizeof(std::int64_t))]] = std::int64_t;
};

template <int width>
class Lanes;

/// What a comparison says of every lane.
template <int width>
class LaneMask {
 public:
  using Bits = typename LaneVectors<width>::Bits;
  GRAFTCAST_INLINE explicit LaneMask(const Bits& bits) : bits_(bits) {}

  GRAFTCAST_INLINE friend LaneMask operator&&(const LaneMask& a, const LaneMask& b) {
    return LaneMask(a.bits_ & b.bits_);
  }
  /// `yes` where it holds, `no` elsewhere.
  GRAFTCAST_INLINE Lanes<width> select(const Lanes<width>& yes, const Lanes<width>& no) const;

 private:
  Bits bits_;
};

/// `width` doubles, 1, 2, 4 or 8. Aligned for the widest processor, whatever this code is compiled for.
template <int width>
class alignas(width * sizeof(double)) Lanes {
 public:
  using Vector = typename LaneVectors<width>::Doubles;
  using Singles = typename LaneVectors<width>::Singles;
  using Bits = typename LaneVectors<width>::Bits;

  GRAFTCAST_INLINE Lanes() = default;
  GRAFTCAST_INLINE explicit Lanes(const Vector& values) : values_(values) {}
  GRAFTCAST_INLINE static Lanes Constant(double value) { return Lanes(Vector{} + value); }
  GRAFTCAST_INLINE static Lanes Zero() { return Lanes(Vector{}); }
  GRAFTCAST_INLINE static Lanes Ones() { return Constant(1); }
  GRAFTCAST_INLINE static Lanes load(const double* from) {
    Lanes lanes;
    std::memcpy(&lanes.values_, from, sizeof lanes.values_);
    return lanes;
  }
  GRAFTCAST_INLINE void store(double* to) const { std::memcpy(to, &values_, sizeof values_); }
  /// The same from and to single precision.
  GRAFTCAST_INLINE static Lanes load(const float* from) {
    Singles singles;
    std::memcpy(&singles, from, sizeof singles);
    return Lanes(__builtin_convertvector(singles, Vector));
  }
  GRAFTCAST_INLINE void store(float* to) const {
    const Singles singles = __builtin_convertvector(values_, Singles);
    std::memcpy(to, &singles, sizeof singles);
  }

  GRAFTCAST_INLINE Lanes operator-() const { return Lanes(-values_); }
  GRAFTCAST_INLINE Lanes& operator+=(const Lanes& other) { return *this = *this + other; }

#define GRAFTCAST_LANES_OPERATOR(sign)                                          \
  GRAFTCAST_INLINE friend Lanes operator sign(const Lanes& a, const Lanes& b) { \
    return Lanes(a.values_ sign b.values_);                                     \
  }                                                                             \
  GRAFTCAST_INLINE friend Lanes operator sign(const Lanes& a, double b) {       \
    return a sign Constant(b);                                                  \
  }                                                                             \
  GRAFTCAST_INLINE friend Lanes operator sign(double a, const Lanes& b) {       \
    return Constant(a) sign b;                                                  \
  }
  GRAFTCAST_LANES_OPERATOR(+)
  GRAFTCAST_LANES_OPERATOR(-)
  GRAFTCAST_LANES_OPERATOR(*)
  GRAFTCAST_LANES_OPERATOR(/)
#undef GRAFTCAST_LANES_OPERATOR

#define GRAFTCAST_LANES_COMPARISON(sign)                                                  \
  GRAFTCAST_INLINE friend LaneMask<width> operator sign(const Lanes& a, const Lanes& b) { \
    return LaneMask<width>(a.values_ sign b.values_);                                     \
  }                                                                                       \
  GRAFTCAST_INLINE friend LaneMask<width> operator sign(const Lanes& a, double b) {       \
    return a sign Constant(b);                                                            \
  }
  GRAFTCAST_LANES_COMPARISON(<)
  GRAFTCAST_LANES_COMPARISON(>)
  GRAFTCAST_LANES_COMPARISON(>=)
#undef GRAFTCAST_LANES_COMPARISON

  GRAFTCAST_INLINE Lanes max(const Lanes& other) const {
    return (*this > other).select(*this, other);
  }
  GRAFTCAST_INLINE Lanes min(const Lanes& other) const {
    return (*this < other).select(*this, other);
  }
  GRAFTCAST_INLINE Lanes max(double other) const {
    return max(Constant(other));
  }
  GRAFTCAST_INLINE Lanes min(double other) const {
    return min(Constant(other));
  }

  GRAFTCAST_INLINE Lanes sqrt() const {
    double roots[width];
    store(roots);
    for (double& root : roots) root = std::sqrt(root);
    return load(roots);
  }

  /// e^x within 2 units of the last place; x is held within -708..709. The rational form and its coefficients
  /// are those of the Cephes library (Moshier 1989, exp.c).
  GRAFTCAST_INLINE Lanes exp() const {
    const Lanes x = max(-708.0).min(709.0);
    const Lanes shifted = x * 1.4426950408889634073599 + to_whole;
    const Lanes whole = shifted - to_whole;
    const Lanes rest = x - whole * 6.93145751953125e-1 - whole * 1.42860682030941723212e-6;
    const Lanes square = rest * rest;
    const Lanes p = ((1.26177193074810590878e-4 * square + 3.02994407707441961300e-2) * square + 1.0) * rest;
    const Lanes q = ((3.00198505138664455042e-6 * square + 2.52448340349684104192e-3) * square +
                     2.27265548208155028766e-1) *
                        square +
                    2.0;
    const Lanes fraction = 1.0 + 2.0 * (p / (q - p));
    return fraction * Lanes(__builtin_bit_cast(
                          Vector, (__builtin_bit_cast(Bits, shifted.values_) << mantissa_bits) + one_bits));
  }

  /// Natural logarithm within 2 units of the last place. Valid: normal numbers above 0. Coefficients of the
  /// Cephes library (Moshier 1989, log.c).
  GRAFTCAST_INLINE Lanes log() const {
    // x = 2^e m with m in [sqrt(1/2), sqrt(2)): the bits above those of sqrt(1/2) give e.
    const Bits above = __builtin_bit_cast(Bits, values_) - root_half_bits;
    const Bits e = above >> mantissa_bits;
    const Lanes f =
        Lanes(__builtin_bit_cast(Vector, __builtin_bit_cast(Bits, values_) - (e << mantissa_bits))) - 1.0;
    // A whole number put below the bits of `to_whole` reads as their sum.
    const Lanes exponent = Lanes(__builtin_bit_cast(Vector, e + to_whole_bits)) - to_whole;
    const Lanes p =
        ((((1.01875663804580931796e-4 * f + 4.97494994976747001425e-1) * f + 4.70579119878881725854) * f +
          1.44989225341610930846e1) *
             f +
         1.79368678507819816313e1) *
            f +
        7.70838733755885391666;
    const Lanes q =
        ((((f + 1.12873587189167450590e1) * f + 4.52279145837532221105e1) * f + 8.29875266912776603211e1) *
             f +
         7.11544750618563894466e1) *
            f +
        2.31251620126765340583e1;
    const Lanes square = f * f;
    const Lanes curved = f * square * (p / q) - exponent * 2.121944400546905827679e-4 - 0.5 * square;
    return f + curved + exponent * 0.693359375;
  }

 private:
  static constexpr int mantissa_bits = 52;
  static constexpr double to_whole = 0x1.8p52;  // Adding it leaves the nearest whole number in the low bits.
  static constexpr std::int64_t to_whole_bits = 0x4338000000000000;
  static constexpr std::int64_t one_bits = 0x3FF0000000000000;
  static constexpr std::int64_t root_half_bits = 0x3FE6A09E667F3BCD;

  Vector values_;
  friend class LaneMask<width>;
};

template <int width>
GRAFTCAST_INLINE Lanes<width> LaneMask<width>::select(const Lanes<width>& yes, const Lanes<width>& no) const {
  return Lanes<width>(bits_ ? yes.values_ : no.values_);
}

template <int width>
GRAFTCAST_INLINE Lanes<width> exp(const Lanes<width>& x) {
  return x.exp();
}
template <int width>
GRAFTCAST_INLINE Lanes<width> log(const Lanes<width>& x) {
  return x.log();
}
template <int width>
GRAFTCAST_INLINE Lanes<width> sqrt(const Lanes<width>& x) {
  return x.sqrt();
}

}  // namespace graftcast
