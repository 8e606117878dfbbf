// Four numbers worked on at once, with the compiler's vector types (GCC, Clang). Each lane goes through the same
// operations in the same order as one number would, so results do not depend on what the processor offers; no fused
// multiply-add for the same reason (cmake/compiler.cmake). Include in .cpp files only.
#pragma once

#include <array>

// Lanes are never handed from one compiled function to another, so how they would be handed over does not matter.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wpsabi"
#endif

namespace evenpull::inline solver {

typedef double Lanes __attribute__((vector_size(32), aligned(8), may_alias));
inline constexpr int lane_count = 4;

// Functions of lanes must be inlined into the version made for each processor.
#define EVENPULL_ALWAYS __attribute__((always_inline))
#define EVENPULL_INLINE inline EVENPULL_ALWAYS

EVENPULL_INLINE Lanes& lanes(double* p) { return *reinterpret_cast<Lanes*>(p); }
EVENPULL_INLINE const Lanes& lanes(const double* p) { return *reinterpret_cast<const Lanes*>(p); }
EVENPULL_INLINE Lanes& lanes(std::array<double, 4>& v) { return lanes(v.data()); }
EVENPULL_INLINE const Lanes& lanes(const std::array<double, 4>& v) { return lanes(v.data()); }

#if defined(__x86_64__)
/// A function compiled for processors with 256-bit vectors; `has_wide_lanes` says whether this is one.
#define EVENPULL_WIDE __attribute__((target("avx2")))
inline const bool has_wide_lanes = __builtin_cpu_supports("avx2");
#endif

}  // namespace evenpull::inline solver
