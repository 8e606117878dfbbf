#include "solver/numerics/front_kernel.hpp"

#include "solver/numerics/lanes.hpp"

#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr int width = lane_count;

// target -= (or, if `fresh`, = -) sum over p of a[p] b[p]^T on a tile of 4 columns and 4 `blocks` rows.
template <int blocks, bool fresh>
EVENPULL_INLINE void tile(double* target, int stride, const double* a, const double* b, int height, int count) {
  Lanes sum[4][blocks];
  for (int c = 0; c < 4; ++c)
    for (int r = 0; r < blocks; ++r) sum[c][r] = Lanes{0, 0, 0, 0};
  for (int p = 0; p < count; ++p) {
    const double* column = a + static_cast<long>(p) * height;
    const double* other = b + static_cast<long>(p) * height;
    for (int c = 0; c < 4; ++c)
      for (int r = 0; r < blocks; ++r) sum[c][r] += lanes(column + width * r) * other[c];
  }
  for (int c = 0; c < 4; ++c)
    for (int r = 0; r < blocks; ++r) {
      Lanes& t = lanes(target + static_cast<long>(c) * stride + width * r);
      t = fresh ? -sum[c][r] : t - sum[c][r];
    }
}

// 4 columns of the target, `count` rows from the diagonal on (a multiple of 4).
template <int blocks, bool fresh>
EVENPULL_INLINE void strip(double* target, int stride, int rows, const double* a, int height, int count) {
  int i = 0;
  for (; i + width * blocks <= rows; i += width * blocks)
    tile<blocks, fresh>(target + i, stride, a + i, a, height, count);
  for (; i < rows; i += width) tile<1, fresh>(target + i, stride, a + i, a, height, count);
}

// Eliminates `w` (1..4) columns that are up to date; `rows` from the diagonal on, rows - w a multiple of 4.
template <int w>
EVENPULL_INLINE bool narrow(double* a, int height, int rows) {
  double inverse[w];
  for (int c = 0; c < w; ++c) {
    double* mine = a + static_cast<long>(c) * height;
    for (int p = 0; p < c; ++p) {
      const double* other = a + static_cast<long>(p) * height;
      for (int i = c; i < w; ++i) mine[i] -= other[i] * other[c];
    }
    if (!(mine[c] > 0)) return false;
    mine[c] = std::sqrt(mine[c]);
    inverse[c] = 1 / mine[c];
    for (int i = c + 1; i < w; ++i) mine[i] *= inverse[c];
  }
  for (int i = w; i < rows; i += width) {
    Lanes x[w];
    for (int c = 0; c < w; ++c) {
      double* mine = a + static_cast<long>(c) * height;
      x[c] = lanes(mine + i);
      for (int p = 0; p < c; ++p) x[c] -= x[p] * a[static_cast<long>(p) * height + c];
      x[c] *= inverse[c];
      lanes(mine + i) = x[c];
    }
  }
  return true;
}

template <int blocks>
EVENPULL_INLINE bool eliminate_with(double* panel, int height, int columns) {
  // The first columns are as many as leave whole groups of four, so that no row or column is left over anywhere.
  const int head = columns % width;
  bool good = true;
  if (head == 1) good = narrow<1>(panel, height, height);
  if (head == 2) good = narrow<2>(panel, height, height);
  if (head == 3) good = narrow<3>(panel, height, height);
  for (int j = head; good && j < columns; j += width) {
    double* corner = panel + static_cast<long>(j) * height + j;
    if (j > 0) strip<blocks, false>(corner, height, height - j, panel + j, height, j);
    good = narrow<4>(corner, height, height - j);
  }
  return good;
}

template <int blocks>
EVENPULL_INLINE void hand_on_with(double* square, const double* panel, int height, int columns) {
  const int handed = height - columns;
  for (int j = 0; j < handed; j += width)
    strip<blocks, true>(square + static_cast<long>(j) * handed + j, handed, handed - j, panel + columns + j, height,
                        columns);
}

EVENPULL_INLINE void down(const double* panel, int height, int columns, double* x) {
  for (int p = 0; p < columns; ++p) {
    const double* column = panel + static_cast<long>(p) * height;
    x[p] /= column[p];
    const double now = x[p];
    for (int i = p + 1; i < height; ++i) x[i] -= column[i] * now;
  }
}

EVENPULL_INLINE void up(const double* panel, int height, int columns, double* x) {
  for (int p = columns - 1; p >= 0; --p) {
    const double* column = panel + static_cast<long>(p) * height;
    double own = 0;
    for (int i = p + 1; i < columns; ++i) own += column[i] * x[i];
    Lanes sum = {0, 0, 0, 0};
    for (int i = columns; i < height; i += width) sum += lanes(column + i) * lanes(x + i);
    x[p] = (x[p] - own - ((sum[0] + sum[1]) + (sum[2] + sum[3]))) / column[p];
  }
}

#if defined(__x86_64__)
EVENPULL_WIDE bool eliminate_wide(double* a, int h, int k) { return eliminate_with<2>(a, h, k); }
EVENPULL_WIDE void hand_on_wide(double* s, const double* a, int h, int k) { hand_on_with<2>(s, a, h, k); }
EVENPULL_WIDE void down_wide(const double* a, int h, int k, double* x) { down(a, h, k, x); }
EVENPULL_WIDE void up_wide(const double* a, int h, int k, double* x) { up(a, h, k, x); }
const bool& wide = has_wide_lanes;
#endif

}  // namespace

#if defined(__x86_64__)
bool eliminate(double* a, int h, int k) { return wide ? eliminate_wide(a, h, k) : eliminate_with<1>(a, h, k); }
void hand_on(double* s, const double* a, int h, int k) {
  wide ? hand_on_wide(s, a, h, k) : hand_on_with<1>(s, a, h, k);
}
void solve_down(const double* a, int h, int k, double* x) { wide ? down_wide(a, h, k, x) : down(a, h, k, x); }
void solve_up(const double* a, int h, int k, double* x) { wide ? up_wide(a, h, k, x) : up(a, h, k, x); }
#else
bool eliminate(double* a, int h, int k) { return eliminate_with<1>(a, h, k); }
void hand_on(double* s, const double* a, int h, int k) { hand_on_with<1>(s, a, h, k); }
void solve_down(const double* a, int h, int k, double* x) { down(a, h, k, x); }
void solve_up(const double* a, int h, int k, double* x) { up(a, h, k, x); }
#endif

}  // namespace evenpull::inline solver
