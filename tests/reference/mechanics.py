"""Energy of cloth and frame as a function of the unknowns, with gradient and Hessian: docs/model.md, sections 1 to 6.

Unknowns: six a joint; three a free node; two a bearing node (creep along the chord and the span); one slip a column for
a wrapped pair. Displacements of nodes and of triangle corners are linear in them, as sparse matrices.
"""

import numpy as np
import scipy.sparse as sparse

import cloth as law
import frame

CORNERS = ((0, 1, 2), (0, 2, 3), (1, 2, 3), (0, 1, 3))  # both diagonals of a quad, each with half its area


class Slide:
    """Unknowns that friction acts on, and the nodes whose forces give its threshold."""

    def __init__(self, unknowns, nodes, wrapped):
        self.unknowns, self.nodes, self.wrapped = np.array(unknowns), nodes, wrapped


class Cloth:
    """The cloth at given unknowns."""

    def __init__(self, m, u, shrink, hot, lines):
        self.m = m
        x = m.placed + (m.to_nodes @ u).reshape(-1, 3)
        f = np.einsum("tix,tia->tax", x[m.corners], m.gradient)  # images of the unit yarn vectors
        e = np.stack([0.5 * (np.sum(f[:, 0] ** 2, -1) - 1), 0.5 * (np.sum(f[:, 1] ** 2, -1) - 1),
                      law.ROOT2 * 0.5 * np.sum(f[:, 0] * f[:, 1], -1)], -1) - m.looseness
        e[:, :2] += shrink
        self.pull, self.tangent, density = law.cold_law(m.compliance, e)
        if len(hot):
            self.pull[hot], self.tangent[hot], density[hot] = law.hot_law(m.compliance, e[hot], shrink[hot], lines)
        self.energy = m.weight @ density
        g = m.gradient
        slopes = np.empty((len(g), 3, 3, 3))  # dE/d(place of corners)
        slopes[:, 0] = g[:, :, 0, None] * f[:, None, 0]
        slopes[:, 1] = g[:, :, 1, None] * f[:, None, 1]
        slopes[:, 2] = (g[:, :, 0, None] * f[:, None, 1] + g[:, :, 1, None] * f[:, None, 0]) / law.ROOT2
        self.slopes = slopes.reshape(len(g), 3, 9)

    def _corner_forces(self):
        return self.m.weight[:, None] * np.einsum("tij,ti->tj", self.slopes, self.pull)

    def gradient(self):
        return self.m.to_corners.T @ self._corner_forces().reshape(-1)

    def nodal_forces(self):
        """dE/d(place) of each node [N]."""
        force = np.zeros_like(self.m.placed)
        np.add.at(force, self.m.corners, self._corner_forces().reshape(-1, 3, 3))
        return force

    def hessian(self):
        m = self.m
        blocks = np.einsum("tia,tij,tjb->tab", self.slopes, self.tangent, self.slopes)
        pull = np.empty((len(blocks), 2, 2))
        pull[:, 0, 0], pull[:, 1, 1] = self.pull[:, 0], self.pull[:, 1]
        pull[:, 0, 1] = pull[:, 1, 0] = self.pull[:, 2] / law.ROOT2
        between = np.einsum("tia,tab,tjb->tij", m.gradient, pull, m.gradient)
        blocks += np.einsum("tij,xy->tixjy", between, np.eye(3)).reshape(-1, 9, 9)
        blocks *= m.weight[:, None, None]
        n = len(blocks)
        spread = sparse.bsr_matrix((blocks, np.arange(n), np.arange(n + 1)), shape=(9 * n, 9 * n))
        return (m.to_corners.T @ spread @ m.to_corners).tocsc()

    def elastic_energy(self):
        """Integral of 1/2 N:C:N [J]."""
        return 0.5 * self.m.weight @ np.einsum("ti,ij,tj->t", self.pull, self.m.compliance, self.pull)


class Mechanics:
    def __init__(self, problem):
        self.problem = problem
        self.compliance = law.compliance(*problem.stiffness)
        self.looseness = np.array([0.5 * ((1 + x) ** 2 - 1) for x in problem.looseness] + [0])
        self._number()
        self._lay_triangles()
        self.pieces = [frame.Piece([problem.joints[j] for j in p.ends], p, problem.members[p.member])
                       for p in problem.pieces]
        self.wires = [frame.Wire([problem.joints[j] for j in w.ends], w) for w in problem.wires]
        self.pieces += self.wires
        self.piece_unknowns = [np.concatenate([6 * j + np.arange(6) for j in p.ends])
                               for p in problem.pieces + problem.wires]
        self.wire_unknowns = self.piece_unknowns[len(problem.pieces):]
        self._rig()

    def _rig(self):
        """Draws the wires as tight as the problem says."""
        joints = np.arange(6 * len(self.problem.joints))
        bare = self.frame_stiffness(np.zeros(len(self.pieces)))[joints][:, joints].toarray()
        free = np.setdiff1d(joints, [6 * j + k for j, k in self.problem.held["ironed"]])
        if self.wires:
            frame.rig(self.wires, self.wire_unknowns, bare, free)

    def _number(self):
        p = self.problem
        self.count = 6 * len(p.joints)
        rows, columns, values = [], [], []
        self.slides = []
        slip_of = {}

        def add(node, unknown, direction):
            rows.extend(3 * node + k for k in range(3))
            columns.extend([unknown] * 3)
            values.extend(direction)

        def new():
            self.count += 1
            return self.count - 1

        for i, n in enumerate(p.nodes):
            if n.tie == "absent":
                continue
            if n.tie == "free":
                for k in range(3):
                    add(i, new(), np.eye(3)[k])
                continue
            arm = n.placed - p.joints[n.joint]
            for k in range(3):
                add(i, 6 * n.joint + k, np.eye(3)[k])
                add(i, 6 * n.joint + 3 + k, np.cross(np.eye(3)[k], arm))
            if n.tie == "bearing":
                pair = [new(), new()]
                add(i, pair[0], n.chordwise)
                add(i, pair[1], n.spanwise)
                self.slides.append(Slide(pair, [i], False))
            elif n.tie == "wrapped":
                # Cloth that has gone from the bottom to the top by q: the top edge lies q further aft of the TE, which
                # moves that material towards the LE; the bottom's follows it round.
                if n.column not in slip_of:
                    slip_of[n.column] = Slide([new()], [], True)
                    self.slides.append(slip_of[n.column])
                slip_of[n.column].nodes.append(i)  # top first: nodes of the top come first
                add(i, slip_of[n.column].unknowns[0], -n.chordwise if n.side == "top" else n.chordwise)
        self.to_nodes = sparse.csr_matrix((values, (rows, columns)), shape=(3 * len(p.nodes), self.count))

    def _lay_triangles(self):
        p = self.problem
        corners, weights, gradients, zones = [], [], [], []
        for q in p.quads:
            for pick in CORNERS:
                nodes = [q.nodes[k] for k in pick]
                x = np.array([p.nodes[n].placed for n in nodes])
                sides = x[1:] - x[0]
                normal = np.cross(*sides)
                area = 0.5 * np.linalg.norm(normal)
                normal /= 2 * area
                span = np.array([0, 1.0, 0])
                span -= (span @ normal) * normal
                span /= np.linalg.norm(span)
                aft = np.array([1.0, 0, 0])
                aft -= (aft @ normal) * normal + (aft @ span) * span
                aft /= np.linalg.norm(aft)
                warp = np.cos(q.angle) * span + np.sin(q.angle) * aft
                fill = np.cos(q.angle) * aft - np.sin(q.angle) * span
                # Linear functions that are 1 at one corner and 0 at the others, in yarn coordinates.
                flat = np.column_stack([np.ones(3), (x - x[0]) @ warp, (x - x[0]) @ fill])
                gradients.append(np.linalg.inv(flat)[1:].T)
                corners.append(nodes)
                weights.append(0.5 * area)
                zones.append(q.zone)
        self.corners = np.array(corners)
        self.weight = np.array(weights)
        self.gradient = np.array(gradients)  # triangle, corner, (warp, fill)
        self.zone = np.array(zones)
        self.placed = np.array([n.placed for n in p.nodes])
        picks = (3 * self.corners[:, :, None] + np.arange(3)).reshape(-1)
        self.to_corners = self.to_nodes[picks].tocsr()

    def cloth(self, u, shrink, hot, lines):
        """Strain, pull and energy of the cloth; `hot`: indices of the triangles that are on load lines."""
        return Cloth(self, u, shrink, hot, lines)

    def frame_stiffness(self, axial):
        """Elastic and geometric stiffness of all members under given axial forces; of wires the geometric one alone."""
        rows, columns, values = [], [], []
        for piece, at, pull in zip(self.pieces, self.piece_unknowns, axial):
            k = piece.elastic + pull * piece.geometric
            rows.append(np.repeat(at, 12))
            columns.append(np.tile(at, 12))
            values.append(k.reshape(-1))
        pick = (np.concatenate(rows), np.concatenate(columns))
        return sparse.csc_matrix((np.concatenate(values), pick), shape=(self.count, self.count))

    def axial(self, u):
        return np.array([piece.axial(u[at]) for piece, at in zip(self.pieces, self.piece_unknowns)])

    def worst_use(self, u):
        """Worst stress over allowable of all pieces and wires."""
        return max(piece.use(u[at]) for piece, at in zip(self.pieces, self.piece_unknowns))

    def frame_energy(self, u):
        """Of all pieces and wires [J]."""
        return sum(piece.energy(u[at]) for piece, at in zip(self.pieces, self.piece_unknowns))

    def wires_at(self, u):
        """Each wire with the unknowns of its ends and what these are."""
        return [(wire, at, u[at]) for wire, at in zip(self.wires, self.wire_unknowns)]

    def thresholds(self, force):
        """Friction threshold of each slide [N] from the forces of the nodes: section 6."""
        p = self.problem
        mu, theta = p.edge_friction
        out = []
        for s in self.slides:
            if s.wrapped:
                both = sum(force[n] @ p.nodes[n].chordwise for n in s.nodes)
                out.append(np.tanh(0.5 * mu * theta) * max(0.0, both))
            else:
                n = p.nodes[s.nodes[0]]
                out.append((p.nose_friction if n.on_nose else p.rib_friction) * max(0.0, force[s.nodes[0]] @ n.normal))
        return np.array(out)
