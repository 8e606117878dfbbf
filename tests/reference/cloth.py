"""The law of the cloth without any smoothing: docs/model.md, sections 2 and 3.

    W(e) = max over N >= 0 of  N:e - 1/2 N:C:N - sum_d psi_d(N_d)

psi_d is zero for cold cloth. While hot it is 1/2 <a - s - b N>^2 / b + 1/2 g b <N - Nc>^2: along each yarn a piece on
which cloth shrinks, one on which nothing moves and one on which it creeps, each of them a quadratic. So the law is
solved on every combination of pieces as if cold, by cases (tight, puckered, loose), and the combination whose answer
lies on its own pieces is taken; the problem is concave, so there is one.

Symmetric tensors are rows (t_ww, t_ff, sqrt(2) t_wf). Everything is done for many triangles at once.
"""

import numpy as np

ROOT2 = np.sqrt(2.0)
ANGLES = 60  # first guesses for the direction of a pucker over half a turn
POLISH = 60  # halvings or Newton steps from there: to rounding


def compliance(warp, fill, poisson, shear):
    """C [m/N]."""
    return np.array([[1 / warp, -poisson / warp, 0], [-poisson / warp, 1 / fill, 0], [0, 0, 1 / (2 * shear)]])


def _ray(angle):
    """n (x) n at an angle from the warp, and its first two derivatives."""
    c, s = np.cos(angle), np.sin(angle)
    first = np.stack([c * c, s * s, ROOT2 * c * s], -1)
    slope = np.stack([-2 * c * s, 2 * c * s, ROOT2 * (c * c - s * s)], -1)
    bend = np.stack([-2 * (c * c - s * s), 2 * (c * c - s * s), -4 * ROOT2 * c * s], -1)
    return first, slope, bend


def _dot(a, b):
    return np.einsum("...i,...i->...", a, b)


def _pucker_angle(m, e):
    """Direction of the one pull of puckered cloth: the angle at which <e_nn>^2 / (2 c_nn) is largest."""
    # Counted from the direction of most stretch, since the range of angles that stretch may be as narrow as one likes.
    grid = 0.5 * np.arctan2(ROOT2 * e[:, 2], e[:, 0] - e[:, 1])[:, None] + np.arange(ANGLES) * np.pi / ANGLES
    rays = _ray(grid)[0]
    stretch = np.maximum(np.einsum("nai,ni->na", rays, e), 0)
    each = np.arange(len(e))
    best = grid[each, np.argmax(stretch**2 / np.einsum("nai,nij,naj->na", rays, m, rays), axis=1)]
    low, high, angle = best - np.pi / ANGLES, best + np.pi / ANGLES, best.copy()
    for _ in range(POLISH):
        v, v1, v2 = _ray(angle)
        mv = np.einsum("nij,nj->ni", m, v)
        mv1 = np.einsum("nij,nj->ni", m, v1)
        stretched = _dot(e, v) > 0
        rise = _dot(e, v1) * _dot(v, mv) - _dot(e, v) * _dot(v1, mv)
        bend = _dot(e, v2) * _dot(v, mv) + _dot(e, v1) * _dot(v1, mv) - _dot(e, v) * (_dot(v2, mv) + _dot(v1, mv1))
        up = np.where(stretched, rise > 0, angle < best)
        low, high = np.where(up, angle, low), np.where(up, high, angle)
        with np.errstate(all="ignore"):
            newton = angle - rise / bend
        good = stretched & np.isfinite(newton) & (newton >= low) & (newton <= high)
        moved = np.where(good, newton, 0.5 * (low + high))
        if np.all(np.abs(moved - angle) < 1e-15):
            break
        angle = moved
    return angle


def _solve_quadratic(m, e):
    """Pull N and dN/de where the energy is N:e - 1/2 N:M:N: tight, loose or puckered."""
    n = len(e)
    inverse = np.linalg.inv(m)
    pull = np.einsum("nij,nj->ni", inverse, e)
    tangent = inverse.copy()
    tight = (pull[:, 0] > 0) & (pull[:, 1] > 0) & (pull[:, 0] * pull[:, 1] > 0.5 * pull[:, 2] ** 2)
    loose = ~tight & (0.5 * (e[:, 0] + e[:, 1]) + np.hypot(0.5 * (e[:, 0] - e[:, 1]), e[:, 2] / ROOT2) <= 0)
    pull[loose] = 0
    tangent[loose] = 0
    at = np.nonzero(~tight & ~loose)[0]
    if len(at):
        ma, ea = m[at], e[at]
        angle = _pucker_angle(ma, ea)
        v, v1, v2 = _ray(angle)
        mv = np.einsum("nij,nj->ni", ma, v)
        size = _dot(ea, v) / _dot(v, mv)
        pull[at] = size[:, None] * v
        # N depends on (size, angle); dN/de = J (-d2/dp2)^-1 J^T with J = dN/dp.
        jacobian = np.stack([v, size[:, None] * v1], -1)
        misfit = ea - size[:, None] * mv  # minus the pucker strain
        curve = np.einsum("nia,nij,njb->nab", jacobian, ma, jacobian)
        curve[:, 1, 1] -= size * _dot(misfit, v2)
        cross = _dot(misfit, v1)
        curve[:, 0, 1] -= cross
        curve[:, 1, 0] -= cross
        tangent[at] = np.einsum("nia,nab,njb->nij", jacobian, np.linalg.inv(curve), jacobian)
    assert pull.shape == (n, 3)
    return pull, tangent


class PanelLoadLines:
    """Load lines of the hot triangles: a, b [m/N] and Nc [N/m], one row a triangle, columns warp and fill; g."""

    def __init__(self, a, b, limit, creep):
        self.a, self.b, self.limit, self.creep = a, b, limit, creep

    def end_shrink(self, before, pull):
        over = self.creep * self.b * np.maximum(0, pull - self.limit)
        return np.maximum(before, self.a - self.b * pull) - over

    def psi(self, before, pull):
        """Energy of shrinking and creeping, both directions together."""
        with np.errstate(all="ignore"):
            moving = np.where(self.b > 0, np.maximum(0, self.a - self.b * pull - before) ** 2 / (2 * self.b), 0)
        return np.sum(moving + 0.5 * self.creep * self.b * np.maximum(0, pull - self.limit) ** 2, axis=1)


def cold_law(c, e):
    """Pull, dN/de and W of cold cloth at elastic strain e."""
    pull, tangent = _solve_quadratic(np.broadcast_to(c, (len(e), 3, 3)), e)
    return pull, tangent, _dot(pull, e) - 0.5 * _dot(pull, pull @ c)


def hot_law(c, e, before, lines):
    """The same on load lines; `before` is the shrink at the start of the step, contained in e."""
    n = len(e)
    pull, tangent, least = np.zeros((n, 3)), np.zeros((n, 3, 3)), np.full(n, np.inf)
    with np.errstate(all="ignore"):
        turn = np.where(lines.b > 0, (lines.a - before) / lines.b, -np.inf)  # shrinks below this pull
    pieces = range(3 if lines.creep > 0 else 2)
    for warp in pieces:
        for fill in pieces:
            m = np.repeat(c[None], n, axis=0)
            shifted = e.copy()
            for d, piece in enumerate((warp, fill)):
                if piece == 0:
                    m[:, d, d] += lines.b[:, d]
                    shifted[:, d] += lines.a[:, d] - before[:, d]
                elif piece == 2:
                    m[:, d, d] += lines.creep * lines.b[:, d]
                    shifted[:, d] += lines.creep * lines.b[:, d] * lines.limit[:, d]
            candidate, slope = _solve_quadratic(m, shifted)
            outside = np.zeros(n)
            for d, piece in enumerate((warp, fill)):
                below = turn[:, d] - candidate[:, d]
                # Cloth that does not creep is held still by any pull.
                above = candidate[:, d] - lines.limit[:, d] if lines.creep > 0 else np.full(n, -np.inf)
                outside += np.maximum(0, -below if piece == 0 else np.maximum(below, above) if piece == 1 else -above)
            better = outside < least
            pull[better], tangent[better], least[better] = candidate[better], slope[better], outside[better]
    assert np.all(least <= 1e-7 * (1 + np.abs(pull).max())), "no combination of pieces fits"
    energy = _dot(pull, e) - 0.5 * _dot(pull, pull @ c) - lines.psi(before, pull[:, :2])
    return pull, tangent, energy
