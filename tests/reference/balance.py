"""Balance of cloth, frame and friction under the exact law, by SciPy's trust-region minimiser.

Loose cloth has no stiffness and friction no slope at rest, so the minimum is reached by the proximal method of
multipliers (Rockafellar 1976, from memory). Each round minimises the energy plus

    1/2 rho |U - U_round|^2  +  sum over slides of the Moreau envelope of tau |dq| at dq + f/r

and takes U, the friction forces f and the thresholds tau anew, until none of them moves. In the end nothing is
smoothed: f is the force of friction itself and what is out of balance is so under the exact law. Where loose cloth lies
is not determined by the energy; this method leaves it where it lay.
"""

import numpy as np
import scipy.optimize
import scipy.sparse as sparse

PROXIMAL = 1.0  # rho [N/m]
GRIP = 1e6  # r [N/m]: any size leads to the same answer, this one in few rounds
ROUNDS = 400
BALANCED = 1e-5  # N: largest change of a force of friction, threshold or proximal force from round to round
STILL = 1e-3  # N: largest change of a member's axial force; its stiffness, 1e7 N/m and more, makes much of what is left
# Norm of the gradient over the root of stiffness [J^1/2], wanted and allowed: at 100 kN/m of cloth 1e-7 is 3e-5 N.
MINIMUM, ALLOWED = 1e-8, 1e-7
TRIES = 5


class Round:
    """Energy of one round as a function of the unknowns that are not held."""

    def __init__(self, mechanics, free, frame, origin, friction, tau, centre, law):
        self.m, self.free, self.frame, self.origin = mechanics, free, frame, origin
        self.friction, self.tau, self.centre, self.law = friction, tau, centre, law
        self.latest = None

    def _at(self, z):
        """All unknowns, cloth and slides there; kept, since energy, gradient and Hessian are asked for in turn."""
        if self.latest is None or not np.array_equal(self.latest[0], z):
            u = self.centre.copy()
            u[self.free] = z
            trials = [f + GRIP * (u[s.unknowns] - self.origin[s.unknowns])
                      for s, f in zip(self.m.slides, self.friction)]
            slides = [envelope(trial, t) for trial, t in zip(trials, self.tau)]
            self.latest = (z.copy(), u, self.m.cloth(u, *self.law), slides)
        return self.latest[1:]

    def energy(self, z):
        u, cloth, slides = self._at(z)
        rub = sum(value for _, _, value in slides) / GRIP
        wires = sum(wire.energy(ends) for wire, _, ends in self.m.wires_at(u))
        return cloth.energy + 0.5 * u @ (self.frame @ u) + wires + rub + 0.5 * PROXIMAL * np.sum((u - self.centre) ** 2)

    def gradient(self, z):
        u, cloth, slides = self._at(z)
        g = cloth.gradient() + self.frame @ u + PROXIMAL * (u - self.centre)
        for s, (force, _, _) in zip(self.m.slides, slides):
            g[s.unknowns] += force
        for wire, at, ends in self.m.wires_at(u):
            g[at] += wire.gradient(ends)
        return g[self.free]

    def hessian(self, z):
        u, cloth, slides = self._at(z)
        h = (cloth.hessian() + self.frame + PROXIMAL * sparse.identity(self.m.count)).tolil()
        for s, (_, slope, _) in zip(self.m.slides, slides):
            h[np.ix_(s.unknowns, s.unknowns)] += GRIP * slope
        for wire, at, ends in self.m.wires_at(u):
            h[np.ix_(at, at)] += wire.hessian(ends)
        return h.tocsc()[self.free][:, self.free].toarray()

    def forces(self, z):
        return [force for force, _, _ in self._at(z)[2]]


def envelope(trial, tau):
    """Trial force shortened to tau, the slope of that, and r times the envelope's value."""
    size = np.linalg.norm(trial)
    if size <= tau:
        return trial, np.eye(len(trial)), 0.5 * size**2
    way = trial / size
    return tau * way, (tau / size) * (np.eye(len(trial)) - np.outer(way, way)), tau * size - 0.5 * tau**2


def minimise(r, z):
    """Minimum of a round from z. Unknowns are scaled by the stiffness they meet; cloth that tightens on the way makes
    that stale, hence further tries from where the last one ended."""
    for _ in range(TRIES):
        start, scale = z, 1 / np.sqrt(r.hessian(z).diagonal())
        answer = scipy.optimize.minimize(
            lambda y: r.energy(start + scale * y), np.zeros_like(z), method="trust-exact",
            jac=lambda y: scale * r.gradient(start + scale * y),
            hess=lambda y: scale[:, None] * r.hessian(start + scale * y) * scale,
            options={"gtol": MINIMUM, "initial_trust_radius": 0.3, "max_trust_radius": 1e3, "maxiter": 3000})
        z = start + scale * answer.x
        left = np.linalg.norm(scale * r.gradient(z))
        if left < ALLOWED:
            return z
        # Near the end energies differ by less than their rounding, on some machines before the forces are small enough: one step of
        # Newton's method on the forces themselves, which are not so blunt. The energy is convex: what is in balance is its minimum.
        z = z - scale * np.linalg.solve(scale[:, None] * r.hessian(z) * scale, scale * r.gradient(z))
        left = np.linalg.norm(scale * r.gradient(z))
        if left < ALLOWED:
            return z
    raise RuntimeError(f"out of balance by {left:.3g} after {answer.nit} iterations: {answer.message}")


def balance(m, held, start, friction, law):
    """Unknowns, friction forces and pull of each triangle in balance, and what still moved in the last round [N].

    `held`: unknowns held at zero; `start`: the unknowns of the last state, from which slip counts; `law`: shrink, hot
    triangles and their load lines. Each round takes the members' geometric stiffness under the forces that they have in
    the answer of the round before.
    """
    free = np.setdiff1d(np.arange(m.count), held)
    u = start.copy()
    u[held] = 0
    axial = m.axial(u)
    tau = m.thresholds(m.cloth(u, *law).nodal_forces())
    for _ in range(ROUNDS):
        this = Round(m, free, m.frame_stiffness(axial), start, friction, tau, u, law)
        z = minimise(this, u[free])
        moved = PROXIMAL * np.abs(z - u[free]).max()
        u = u.copy()
        u[free] = z
        forces = this.forces(z)
        fresh = m.thresholds(m.cloth(u, *law).nodal_forces())
        for before, now in list(zip(friction, forces)) + [(tau, fresh)]:
            moved = max(moved, np.abs(now - before).max(initial=0))
        still = np.abs(m.axial(u) - axial).max(initial=0) < STILL
        friction, tau, axial = forces, fresh, m.axial(u)
        if moved < BALANCED and still:
            return u, friction, m.cloth(u, *law).pull, moved
    raise RuntimeError(f"not balanced: forces still move by {moved:.3g} N")
