// Dense work inside one front. Every sum is taken in one fixed order whatever the processor offers, so that results
// are the same to the last bit from machine to machine.
#pragma once

namespace evenpull::inline solver {

/// Cholesky factorisation in place of the first `columns` columns of a front: column-major, `height` rows a column,
/// lower part. height - columns must be a multiple of 4. Returns false where a pivot is not positive.
bool eliminate(double* panel, int height, int columns);

/// square = - B B^T, lower part (and whole 4x4 tiles on the diagonal), B = the rows of the panel under its columns.
/// `square` has handed = height - columns columns.
void hand_on(double* square, const double* panel, int height, int columns);

/// x := L^-1 x of one front: x has `height` values, the first `columns` become final, the rest is what is taken off
/// below.
void solve_down(const double* panel, int height, int columns, double* x);

/// x[0..columns) := L^-T (x - L21^T x[columns..)).
void solve_up(const double* panel, int height, int columns, double* x);

}  // namespace evenpull::inline solver
