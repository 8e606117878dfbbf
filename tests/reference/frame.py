"""Members: docs/model.md, section 5.

Stiffness by integrating, at Gauss points, the cubic shapes that a straight piece takes when its ends move; a hinged end
has no curvature. Where a section gives in shear its own slope is that of the axis less the shear (Timoshenko), and that is
what the ends turn.

Unknowns of a piece: displacement (3) and rotation (3) of each end. Along a direction d across the piece the deflection
of an end is u.d and its slope (theta x e1).d.
"""

import numpy as np

GAUSS = np.polynomial.legendre.leggauss(4)  # exact to degree 7: more than squares of cubics ask for


def _bending_shapes(length, hinges, give):
    """Deflection polynomials, one a column, for unit (v1, slope1, v2, slope2); no column effect from a hinged slope.
    `give`: EI/(kappa G A) [m^2], 0 without shear."""
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
        conditions.append(curvature[end] if hinges[end] else slope[end])
        wanted[2 * end + 1, 2 * end + 1] = 0 if hinges[end] else 1
    return np.linalg.solve(np.array(conditions), wanted)


def _integrals(length, hinges, give):
    """Integrals of v'' v'' with that of the shear's share, and of v' v' over the piece, both 4 x 4."""
    shapes = _bending_shapes(length, hinges, give)
    x = 0.5 * length * (GAUSS[0] + 1)
    weight = 0.5 * length * GAUSS[1]
    slope = np.stack([0 * x, 1 + 0 * x, 2 * x, 3 * x**2], -1) @ shapes
    curvature = np.stack([0 * x, 0 * x, 2 + 0 * x, 6 * x], -1) @ shapes
    sheared = 6 * shapes[3]  # v triple prime; kappa G A (give v triple prime)^2 over EI
    bent = np.einsum("g,gi,gj->ij", weight, curvature, curvature) + give * length * np.outer(sheared, sheared)
    return bent, np.einsum("g,gi,gj->ij", weight, slope, slope)


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
        self.twist_stiffness = member.shear * piece.section.torsion / length
        self.turn = turn
        self.elastic = self.axial_stiffness * np.outer(self.stretch, self.stretch)
        self.elastic += self.twist_stiffness * np.outer(turn, turn)
        self.geometric = np.zeros((12, 12))
        self.bending = {}
        s = piece.section
        for name, across, inertia, shear_area in (("up", up, s.inertia_up, s.shear_up),
                                                  ("flat", flat, s.inertia_flat, s.shear_flat)):
            give = member.young * inertia / (member.shear * shear_area) if shear_area > 0 else 0.0
            curving, sloping = _integrals(length, piece.hinges, give)
            pick = np.zeros((4, 12))
            for end in (0, 1):
                pick[2 * end, 6 * end:6 * end + 3] = across
                pick[2 * end + 1, 6 * end + 3:6 * end + 6] = np.cross(along, across)
            stiffness = member.young * inertia * curving
            self.elastic += pick.T @ stiffness @ pick
            self.geometric += pick.T @ sloping @ pick
            self.bending[name] = (pick, stiffness, sloping)

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
