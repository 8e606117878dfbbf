"""Members: docs/model.md, section 5.

Stiffness by integrating, at Gauss points, the cubic shapes that a straight piece takes when its joints move; a hinged
end has no curvature. An end on a spring k turns against its joint by M/k, M = EI v'' there, and the spring's M^2/2k
counts with the bending. Where a section gives in shear its own slope is that of the axis less the shear (Timoshenko),
and that is what the ends turn.

Unknowns of a piece: displacement (3) and rotation (3) of each end. Along a direction d across the piece the deflection
of an end is u.d and its slope (theta x e1).d.
"""

import numpy as np

GAUSS = np.polynomial.legendre.leggauss(4)  # exact to degree 7: more than squares of cubics ask for


def _bending_shapes(length, hinges, give, loose):
    """Deflection polynomials, one a column, for unit (v1, slope1, v2, slope2) of the joints; no column effect from a
    hinged slope. `give`: EI/(kappa G A) [m^2], 0 without shear; `loose`: EI/k of the spring at either end [m], 0 without
    one."""
    at = np.array([0.0, length])
    powers = np.arange(4)
    value = at[:, None] ** powers
    slope = np.where(powers > 0, powers * at[:, None] ** np.maximum(powers - 1, 0), 0)
    curvature = np.where(powers > 1, powers * (powers - 1) * at[:, None] ** np.maximum(powers - 2, 0), 0)
    slope = slope + give * np.array([0, 0, 0, 6.0])
    conditions, wanted = [], np.zeros((4, 4))
    for end in (0, 1):
        conditions.append(value[end])
        wanted[2 * end, 2 * end] = 1
        # What bends an end back turns it against its joint: M = -EI v'' at the first end, EI v'' at the second.
        turned = slope[end] + (loose[end] if end else -loose[end]) * curvature[end]
        conditions.append(curvature[end] if hinges[end] else turned)
        wanted[2 * end + 1, 2 * end + 1] = 0 if hinges[end] else 1
    return np.linalg.solve(np.array(conditions), wanted)


def _integrals(length, hinges, give, loose):
    """Integrals of v'' v'' with the share of shear and springs, and of v' v', over the piece, both 4 x 4."""
    shapes = _bending_shapes(length, hinges, give, loose)
    x = 0.5 * length * (GAUSS[0] + 1)
    weight = 0.5 * length * GAUSS[1]
    slope = np.stack([0 * x, 1 + 0 * x, 2 * x, 3 * x**2], -1) @ shapes
    curvature = np.stack([0 * x, 0 * x, 2 + 0 * x, 6 * x], -1) @ shapes
    sheared = 6 * shapes[3]  # v triple prime; kappa G A (give v triple prime)^2 over EI
    bent = np.einsum("g,gi,gj->ij", weight, curvature, curvature) + give * length * np.outer(sheared, sheared)
    for end, at in enumerate((0.0, length)):
        there = np.array([0, 0, 2, 6 * at]) @ shapes
        bent += loose[end] * np.outer(there, there)
    return bent, np.einsum("g,gi,gj->ij", weight, slope, slope)


def held_warping(section, member):
    """Factor on G J/l of a member of which one end or both cannot warp: half of what Vlasov's torsion gains."""
    if not member.warp_held or section.warping <= 0:
        return 1.0
    u = member.length * np.sqrt(member.shear * section.torsion / (member.young * section.warping))
    perfect = 1 / (1 - np.tanh(u) / u) if member.warp_held == 1 else 1 / (1 - np.tanh(0.5 * u) / (0.5 * u))
    return 1 + 0.5 * (perfect - 1)


class Piece:
    """One straight piece: stiffness, geometric stiffness under 1 N of pull, forces, stress."""

    def __init__(self, ends, piece, member):
        self.piece, self.member = piece, member
        along = ends[1] - ends[0]
        length = np.linalg.norm(along)
        along = along / length
        up = piece.up - (piece.up @ along) * along
        up /= np.linalg.norm(up)
        flat = np.cross(up, along)
        self.stretch = np.concatenate([-along, np.zeros(3), along, np.zeros(3)])  # elongation per unknown
        turn = np.concatenate([np.zeros(3), -along, np.zeros(3), along])
        self.axial_stiffness = member.young * piece.section.area / length
        self.twist_stiffness = member.shear * piece.section.torsion / length * held_warping(piece.section, member)
        self.turn = turn
        self.elastic = self.axial_stiffness * np.outer(self.stretch, self.stretch)
        self.elastic += self.twist_stiffness * np.outer(turn, turn)
        self.geometric = np.zeros((12, 12))
        self.bending = {}
        s = piece.section
        for which, (name, across, shear_area) in enumerate((("up", up, s.shear_up), ("flat", flat, s.shear_flat))):
            inertia = getattr(s, "inertia_" + name)
            give = member.young * inertia / (member.shear * shear_area) if shear_area > 0 else 0.0
            # k = alpha E I/L with I at the joint, L of the whole member
            loose = [inertia / getattr(at, "inertia_" + name) * member.length / alpha[which]
                     for at, alpha in zip(piece.end_sections, piece.turns)]
            curving, sloping = _integrals(length, piece.hinges, give, loose)
            pick = np.zeros((4, 12))
            for end in (0, 1):
                pick[2 * end, 6 * end:6 * end + 3] = across
                pick[2 * end + 1, 6 * end + 3:6 * end + 6] = np.cross(along, across)
            stiffness = member.young * inertia * curving
            self.elastic += pick.T @ stiffness @ pick
            self.geometric += pick.T @ sloping @ pick
            self.bending[name] = (pick, stiffness, sloping)

    def energy(self, u):
        """1/2 u K u [J], without the axial force."""
        return 0.5 * u @ self.elastic @ u

    def use(self, u):
        """Worse stress of both ends over its allowable."""
        return self.stress(u) / self.member.allowable

    def axial(self, u):
        """Axial force [N], pull positive."""
        return self.axial_stiffness * (self.stretch @ u)

    def stress(self, u):
        """Worse stress of both ends [Pa] at end displacements u, with the sections there; moments are those that hold
        the ends, hence amplified by the axial force."""
        axial = self.axial(u)
        force = {name: (stiffness + axial * sloping) @ (pick @ u)
                 for name, (pick, stiffness, sloping) in self.bending.items()}
        twist = self.twist_stiffness * (self.turn @ u)
        worst = 0.0
        for end, s in enumerate(self.piece.end_sections):
            up = abs(force["up"][2 * end + 1]) * s.reach_up / s.inertia_up
            flat = abs(force["flat"][2 * end + 1]) * s.reach_flat / s.inertia_flat
            # On a circle the two bendings are one, about the axis of their resultant.
            direct = abs(axial) / s.area + (np.hypot(up, flat) if s.round else up + flat)
            worst = max(worst, np.hypot(direct, np.sqrt(3) * abs(twist) * s.reach_twist / s.torsion))
        return worst


class Wire:
    """A wire on ball ends, which only pulls: N = max(0, at_rest + k e), e how far its ends have moved apart, of energy
    N^2/2k. Under 1 N of pull it holds its ends as a string does."""

    def __init__(self, ends, wire):
        along = ends[1] - ends[0]
        length = np.linalg.norm(along)
        along = along / length
        self.wire, self.rate, self.at_rest = wire, wire.young * wire.area / length, 0.0
        self.stretch = np.concatenate([-along, np.zeros(3), along, np.zeros(3)])
        self.elastic = np.zeros((12, 12))  # its energy is no quadratic
        apart = np.zeros((3, 12))
        apart[:, :3], apart[:, 6:9] = -np.eye(3), np.eye(3)
        across = apart - np.outer(along, along @ apart)
        self.geometric = across.T @ across / length

    def axial(self, u):
        return max(0.0, self.at_rest + self.rate * (self.stretch @ u))

    def energy(self, u):
        return 0.5 * self.axial(u) ** 2 / self.rate

    def gradient(self, u):
        return self.axial(u) * self.stretch

    def hessian(self, u):
        return (self.rate if self.axial(u) > 0 else 0.0) * np.outer(self.stretch, self.stretch)

    def use(self, u):
        return self.axial(u) / self.wire.area / self.wire.allowable


def rig(wires, places, stiffness, free):
    """Sets `at_rest` of each wire so that on the bare frame it pulls its tightness, to first order.

    `places`: unknowns of the wires' ends; `stiffness`: of the frame without wires; `free`: unknowns of it that are not
    held. The wanted pulls are loads on the frame; by what they draw a wire's ends together it pulls more while no joint
    has moved."""
    wanted = np.array([w.wire.tightness for w in wires])
    loads = np.zeros((stiffness.shape[0], len(wires)))
    for i, (w, at) in enumerate(zip(wires, places)):
        np.add.at(loads[:, i], at, -w.stretch)
    moved = np.zeros(stiffness.shape[0])
    moved[free] = np.linalg.solve(stiffness[np.ix_(free, free)], loads[free] @ wanted)
    for w, at, pull in zip(wires, places, wanted):
        w.at_rest = pull - w.rate * (w.stretch @ moved[at])
